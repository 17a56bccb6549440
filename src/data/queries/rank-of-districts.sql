-- Ranks of districts by the catch of one pest per trap-night, with what the records leave open: a district surely ranks
-- somewhere from best_rank to worst_rank, all districts at once (95 %). 1 is the lowest rate. Districts whose ranks
-- overlap cannot be told apart; a single number would be a false precision, and with few readings it is chance.
--
-- Each district has an interval that holds together with those of all others (Bonferroni); a district is above another
-- only where the intervals do not touch (Klein, Wright and Wieczorek 2020, Journal of the Royal Statistical Society A
-- 183:589-606; from memory). The interval is of a ratio over months of sites, which catch unlike each other (Cochran 1977,
-- chapter 6), on the scale of logarithms; the quantile is by Abramowitz and Stegun 26.2.23 (error below 0.00045). Where
-- none was caught, or in fewer than 6 months of sites, the interval reaches from nought: to what the effort rules out
-- where none was caught, were catches not clumped, and otherwise without end.
WITH asked AS (
  SELECT 'german-cockroach' AS pest, DATE '1900-01-01' AS from_day, DATE '2999-12-31' AS to_day, 0.05 AS error
),
told AS (
  SELECT
    c.*,
    MAX(CASE WHEN c.trap_nights > 0 THEN c.day END)
      OVER (PARTITION BY c.district, c.site, c.area, c.pest) AS last_day
  FROM catches c CROSS JOIN asked
  WHERE c.in_rates AND c.pest = asked.pest AND c.day BETWEEN asked.from_day AND asked.to_day
),
by_month AS (
  SELECT
    district, site, DATE_TRUNC('month', day) AS month,
    CAST(SUM(caught) AS DOUBLE) AS caught, CAST(SUM(trap_nights) AS DOUBLE) AS trap_nights
  FROM told
  WHERE day <= last_day
  GROUP BY 1, 2, 3
),
rates AS (
  SELECT
    district, COUNT(*) AS months, SUM(caught) AS caught, SUM(trap_nights) AS trap_nights,
    SUM(caught) / SUM(trap_nights) AS rate
  FROM by_month
  GROUP BY 1
),
tail AS (
  SELECT MAX(asked.error) / COUNT(*) AS both_sides, SQRT(-2.0 * LN(MAX(asked.error) / COUNT(*) / 2.0)) AS t
  FROM rates CROSS JOIN asked
),
quantile AS (
  SELECT
    both_sides,
    t - (2.515517 + 0.802853 * t + 0.010328 * t * t)
      / (1.0 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t * t * t) AS z
  FROM tail
),
spread AS (
  SELECT
    r.district,
    SQRT(MAX(r.months) / (MAX(r.months) - 1.0) * SUM(POWER(m.caught - r.rate * m.trap_nights, 2))) / MAX(r.caught)
      AS log_error
  FROM rates r JOIN by_month m ON m.district = r.district
  WHERE r.caught > 0 AND r.months >= 6
  GROUP BY 1
),
limits AS (
  SELECT
    r.*,
    COALESCE(r.rate * EXP(-q.z * s.log_error), 0.0) AS low,
    CASE
      WHEN r.caught = 0 THEN -LN(q.both_sides / 2.0) / r.trap_nights
      ELSE r.rate * EXP(q.z * s.log_error)
    END AS high
  FROM rates r CROSS JOIN quantile q LEFT JOIN spread s ON s.district = r.district
)
SELECT
  one.district,
  CAST(one.caught AS BIGINT) AS caught,
  CAST(one.trap_nights AS BIGINT) AS trap_nights,
  one.rate AS per_trap_night, one.low, one.high,
  1 + COUNT(*) FILTER (WHERE other.high < one.low) AS best_rank,
  COUNT(*) - COUNT(*) FILTER (WHERE other.low > one.high) AS worst_rank
FROM limits one CROSS JOIN limits other
GROUP BY 1, 2, 3, 4, 5, 6
ORDER BY one.rate, one.district;
