-- Active ingredients by district and month: weight, and in how many uses it is not wholly told.
-- Ids of ingredients are the same in every district, so districts can be added up by them.
WITH asked AS (
  SELECT DATE '1900-01-01' AS from_day, DATE '2999-12-31' AS to_day
)
SELECT
  a.district,
  CAST(DATE_TRUNC('month', a.day) AS DATE) AS month,
  a.ingredient,
  COUNT(*) AS uses,
  COUNT(*) FILTER (WHERE NOT a.is_whole) AS uses_not_wholly_told,
  SUM(CAST(a.active_g AS DECIMAL(38, 12))) AS active_g
FROM active_ingredients a CROSS JOIN asked
WHERE a.day BETWEEN asked.from_day AND asked.to_day
GROUP BY 1, 2, 3
ORDER BY 1, 2, 3;
