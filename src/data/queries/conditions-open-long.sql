-- Conditions that have been open for more than a number of days on the as-of day of their district, by kind and owner.
WITH asked AS (
  SELECT 30 AS more_than_days
)
SELECT
  c.district,
  COALESCE(c.kind, 'not stated') AS kind,
  COALESCE(c.owner, 'nobody named') AS owner,
  COUNT(*) AS open_conditions,
  COUNT(*) FILTER (WHERE c.is_overdue) AS overdue,
  MAX(c.days_followed) AS longest_days
FROM conditions c CROSS JOIN asked
WHERE c.is_open AND c.days_followed > asked.more_than_days
GROUP BY 1, 2, 3
ORDER BY 1, 2, 3;
