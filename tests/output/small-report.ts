import type { Report } from '../../src/types.js'

/** A report in which everything is that can go wrong when it is written down. */
export const smallReport: Report = {
  report: 'example',
  title: 'Catch in <b>Oak</b> | kitchen',
  headline: 'One thing_is *sure*.',
  asOf: '2026-03-20',
  period: { from: '2026-03-01', to: '2026-03-20' },
  facts: [{ label: 'By', value: 'Ada [Okafor]' }],
  tables: [
    {
      id: 'catch',
      title: 'Catch',
      columns: [
        { id: 'area', title: 'area' },
        { id: 'shown', title: 'rate (95 %)', for: 'people' },
        { id: 'rate', title: 'rate', unit: 'per trap-week', decimals: 2 },
        { id: 'change', title: 'change', unit: '% a month', decimals: 1, for: 'work' },
        { id: 'note', title: 'note' },
      ],
      rows: [
        {
          cells: {
            area: 'kitchen',
            shown: '0.58 (0.23 to 1.20)',
            rate: 7 / 12,
            change: -3.25,
            note: 'a|b <i>',
          },
          records: ['sites/oak/visits/2026-03-05-okafor.yaml', 'sites/oak/visits/2026-03-12-okafor.yaml'],
        },
        { cells: { area: '=1+1', shown: null, rate: null, change: null, note: '' }, records: [] },
        {
          cells: { area: 'store', rate: Number.NaN, change: Number.POSITIVE_INFINITY, note: '@cmd' },
          records: [],
        },
        { cells: { area: 'hall', shown: null, rate: 0, change: -0.01, note: '-5' }, records: ['+x.yaml'] },
      ],
      empty: 'Nothing was caught.',
    },
    { id: 'other', title: 'Other', columns: [{ id: 'a', title: 'a' }], rows: [], empty: 'There is none.' },
  ],
  cautions: ['A zero is a reading.'],
  notExamined: ['sites/elm: it has no site.yaml.'],
  incomplete: true,
}
