-- Catch per trap-night by pest and kind of area, over all districts, with its interval.
-- Only what joins the rates counts: usable readings of devices that are for the pest. A zero counts; a missing, wet or
-- full board does not, and neither does its effort. What is found on the day a device was set stays with its next
-- reading; where none follows, it is left out.
-- The interval (95 %) is of a ratio over sites, which catch unlike each other (Cochran 1977, chapter 6), on the scale of
-- logarithms. From fewer than 10 sites, or where none was caught, it is not told: rule_out is then the rate that the
-- effort rules out (3 over the effort), were catches not clumped.
WITH asked AS (
  SELECT DATE '1900-01-01' AS from_day, DATE '2999-12-31' AS to_day
),
told AS (
  SELECT
    c.*,
    MAX(CASE WHEN c.trap_nights > 0 THEN c.day END)
      OVER (PARTITION BY c.district, c.site, c.area, c.pest) AS last_day
  FROM catches c CROSS JOIN asked
  WHERE c.in_rates AND c.day BETWEEN asked.from_day AND asked.to_day
),
by_site AS (
  SELECT
    pest, COALESCE(area_kind, 'not known') AS area_kind, district, site,
    CAST(SUM(caught) AS DOUBLE) AS caught, CAST(SUM(trap_nights) AS DOUBLE) AS trap_nights
  FROM told
  WHERE day <= last_day
  GROUP BY 1, 2, 3, 4
),
rates AS (
  SELECT
    pest, area_kind,
    COUNT(*) AS sites, SUM(caught) AS caught, SUM(trap_nights) AS trap_nights,
    SUM(caught) / SUM(trap_nights) AS rate
  FROM by_site
  GROUP BY 1, 2
),
spread AS (
  SELECT
    r.pest, r.area_kind,
    SQRT(MAX(r.sites) / (MAX(r.sites) - 1.0) * SUM(POWER(s.caught - r.rate * s.trap_nights, 2))) / MAX(r.caught)
      AS log_error
  FROM rates r JOIN by_site s ON s.pest = r.pest AND s.area_kind = r.area_kind
  WHERE r.sites >= 10 AND r.caught > 0
  GROUP BY 1, 2
)
SELECT
  r.pest, r.area_kind, r.sites,
  CAST(r.caught AS BIGINT) AS caught,
  CAST(r.trap_nights AS BIGINT) AS trap_nights,
  r.rate AS per_trap_night,
  r.rate * EXP(-1.959964 * s.log_error) AS low,
  r.rate * EXP(1.959964 * s.log_error) AS high,
  CASE WHEN r.caught = 0 THEN 3.0 / r.trap_nights END AS rule_out
FROM rates r LEFT JOIN spread s ON s.pest = r.pest AND s.area_kind = r.area_kind
ORDER BY 1, 2;
