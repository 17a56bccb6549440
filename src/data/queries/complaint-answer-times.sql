-- How soon complaints are answered, by district: those that still wait count for as long as they have waited
-- (Kaplan and Meier 1958), so that a district does not look quick by leaving the slow ones open. The share in time has
-- its interval (95 %, Wilson 1927; 1.9600 is the normal quantile).
WITH asked AS (
  SELECT DATE '1900-01-01' AS from_day, DATE '2999-12-31' AS to_day
),
came_in AS (
  SELECT c.*
  FROM complaints c CROSS JOIN asked
  WHERE c.came_in_on BETWEEN asked.from_day AND asked.to_day AND c.came_in_on <= c.followed_to
),
ends AS (
  SELECT
    district, days_followed AS days,
    COUNT(*) AS followed,
    COUNT(*) FILTER (WHERE is_answered) AS answered
  FROM came_in
  WHERE days_followed IS NOT NULL
  GROUP BY 1, 2
),
at_risk AS (
  SELECT
    district, days, answered,
    SUM(followed) OVER (PARTITION BY district ORDER BY days DESC) AS waiting
  FROM ends
),
steps AS (
  SELECT
    district, days,
    -- Nobody waits any longer once the last is answered: the logarithm of nought is left out, and nought said outright.
    CASE
      WHEN answered = waiting THEN 0.0
      ELSE EXP(SUM(CASE WHEN answered = waiting THEN 0.0 ELSE LN(1.0 - CAST(answered AS DOUBLE) / waiting) END)
        OVER (PARTITION BY district ORDER BY days))
    END AS still_waiting
  FROM at_risk
  WHERE answered > 0
),
halves AS (
  SELECT
    district, days, still_waiting,
    ROW_NUMBER() OVER (PARTITION BY district ORDER BY days) AS nth,
    LEAD(days) OVER (PARTITION BY district ORDER BY days) AS next_days
  FROM steps
  WHERE still_waiting < 0.5 + 1e-8
),
shares AS (
  SELECT
    district,
    COUNT(*) AS received,
    COUNT(*) FILTER (WHERE is_withdrawn) AS withdrawn,
    COUNT(*) FILTER (WHERE NOT is_withdrawn AND answered_on IS NOT NULL) AS answered,
    COUNT(*) FILTER (WHERE is_open) AS waiting,
    COUNT(*) FILTER (WHERE is_overdue) AS overdue,
    CAST(COUNT(*) FILTER (WHERE NOT is_withdrawn AND in_time) AS DOUBLE) AS in_time,
    -- Empty where none is judged yet, and so is what is divided by it.
    NULLIF(CAST(COUNT(*) FILTER (WHERE NOT is_withdrawn AND in_time IS NOT NULL) AS DOUBLE), 0) AS judged
  FROM came_in
  GROUP BY 1
)
SELECT
  s.district, s.received, s.withdrawn, s.answered, s.waiting, s.overdue,
  -- Where exactly half wait for a while, the middle of that while.
  CASE
    WHEN ABS(h.still_waiting - 0.5) < 1e-8 AND h.next_days IS NOT NULL THEN (h.days + h.next_days) / 2.0
    ELSE h.days
  END AS half_within_days,
  COALESCE(s.judged, 0) AS judged,
  s.in_time / s.judged AS in_time_share,
  (s.in_time + 1.920729410347 - 1.959963984540 * SQRT(s.in_time * (s.judged - s.in_time) / s.judged + 0.960364705173))
    / (s.judged + 3.841458820694) AS in_time_low,
  (s.in_time + 1.920729410347 + 1.959963984540 * SQRT(s.in_time * (s.judged - s.in_time) / s.judged + 0.960364705173))
    / (s.judged + 3.841458820694) AS in_time_high
FROM shares s LEFT JOIN halves h ON h.district = s.district AND h.nth = 1
ORDER BY 1;
