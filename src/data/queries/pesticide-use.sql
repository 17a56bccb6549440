-- Pesticide use by district, month and product: how often, how much, and how much of it is not told.
-- Amounts are of undiluted product. Weight and volume stay apart; volume_as_weight_g is what the volume weighs, where the
-- register has a density. Uses of products that no register has (is_pesticide is empty) are counted and not added.
WITH asked AS (
  SELECT DATE '1900-01-01' AS from_day, DATE '2999-12-31' AS to_day
),
used AS (
  SELECT a.*
  FROM applications a CROSS JOIN asked
  WHERE a.day BETWEEN asked.from_day AND asked.to_day
)
SELECT
  u.district,
  CAST(DATE_TRUNC('month', u.day) AS DATE) AS month,
  u.product,
  p.name,
  p.registration,
  u.is_pesticide,
  COUNT(*) FILTER (WHERE u.how = 'application') AS applied,
  COUNT(*) FILTER (WHERE u.how = 'bait in a device') AS bait_put_out,
  COUNT(*) FILTER (WHERE u.is_whole IS NOT TRUE) AS without_amount,
  -- A sum of decimals is the same in whatever order an engine adds; one of doubles is not.
  SUM(CAST(u.weight_g AS DECIMAL(38, 12))) AS weight_g,
  SUM(CAST(u.volume_ml AS DECIMAL(38, 12))) AS volume_ml,
  SUM(CAST(u.volume_ml * p.density_g_per_ml AS DECIMAL(38, 12))) AS volume_as_weight_g,
  COUNT(*) FILTER (WHERE u.piece IS NOT NULL) AS uses_in_pieces
FROM used u
LEFT JOIN products p ON p.district = u.district AND p.product = u.product
GROUP BY 1, 2, 3, 4, 5, 6
ORDER BY 1, 2, 3;
