-- Share of sites at which no use of a pesticide is on record, by district. That none is on record does not show that
-- none was made. A site with a use of a product that no register has is not counted as one without.
WITH asked AS (
  SELECT DATE '1900-01-01' AS from_day, DATE '2999-12-31' AS to_day
),
used AS (
  SELECT DISTINCT a.district, a.site
  FROM applications a CROSS JOIN asked
  WHERE a.day BETWEEN asked.from_day AND asked.to_day
)
SELECT
  s.district,
  COUNT(*) AS sites,
  COUNT(*) FILTER (WHERE used.site IS NULL) AS sites_without,
  CAST(COUNT(*) FILTER (WHERE used.site IS NULL) AS DOUBLE) / COUNT(*) AS share_without
FROM sites s
LEFT JOIN used ON used.district = s.district AND used.site = s.site
GROUP BY 1
ORDER BY 1;
