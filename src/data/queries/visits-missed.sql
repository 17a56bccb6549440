-- Routine visits that a contract asks for and that are not on record, by district, beside those that are. That none is
-- on record does not show that none was made. What an exception covers is left out.
WITH asked AS (
  SELECT DATE '1900-01-01' AS from_day, DATE '2999-12-31' AS to_day
),
missed AS (
  SELECT p.district, COUNT(*) AS missed, COUNT(*) FILTER (WHERE p.stands) AS still_missing,
    COUNT(DISTINCT p.site) AS sites_with_missed
  FROM problems p CROSS JOIN asked
  WHERE p.rule = 'visit-overdue' AND p.exception IS NULL AND p.since BETWEEN asked.from_day AND asked.to_day
  GROUP BY 1
),
made AS (
  SELECT v.district, COUNT(*) AS routine_visits
  FROM visits v CROSS JOIN asked
  WHERE v.purpose = 'routine' AND v.day BETWEEN asked.from_day AND asked.to_day
  GROUP BY 1
)
SELECT
  d.district, d.sites_examined, d.sites_left_out,
  COALESCE(made.routine_visits, 0) AS routine_visits,
  COALESCE(missed.missed, 0) AS missed,
  COALESCE(missed.still_missing, 0) AS still_missing,
  COALESCE(missed.sites_with_missed, 0) AS sites_with_missed
FROM districts d
LEFT JOIN made ON made.district = d.district
LEFT JOIN missed ON missed.district = d.district
ORDER BY 1;
