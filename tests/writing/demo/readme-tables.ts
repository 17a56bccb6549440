import { efficiency } from '../../../src/writing/demo/efficiency.js'
import { figures } from '../../../src/writing/demo/figures.js'
import { pestModels } from '../../../src/writing/demo/pests.js'
import { effects } from '../../../src/writing/demo/treatments.js'
import { troubleRates } from '../../../src/writing/demo/trouble.js'

function table(head: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  return [head, head.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n')
}

/** The tables of the model's page, made from the model itself. */
export function readmeTables(): Readonly<Record<string, string>> {
  return {
    pests: table(
      [
        'pest',
        'k',
        'season: peak day, swing',
        'onsets',
        'growth',
        'capacity',
        'lasts',
        'sighted',
        'complained',
      ],
      pestModels.map((pest) => [
        pest.id,
        pest.k,
        `${pest.season.peak}, ${pest.season.swing}`,
        pest.onsets,
        pest.growth,
        pest.capacity,
        pest.lasts ?? 'for good',
        pest.sighted,
        pest.complained,
      ]),
    ),
    bases: table(
      ['pest', 'base rate by kind of area'],
      pestModels.map((pest) => [
        pest.id,
        Object.entries(pest.base)
          .map(([kind, rate]) => `${kind} ${rate}`)
          .join(', '),
      ]),
    ),
    efficiency: table(
      ['device', 'efficiency by pest'],
      Object.entries(efficiency).map(([kind, pests]) => [
        kind,
        Object.entries(pests)
          .map(([pest, share]) => `${pest} ${share}`)
          .join(', '),
      ]),
    ),
    effects: table(
      ['tactic', 'works', 'works for a while', 'fall a day'],
      Object.entries(effects).map(([what, effect]) => [what, effect.works, effect.while, effect.fall]),
    ),
    figures: table(['figure', 'value'], Object.entries(figures)),
    troubles: table(['what goes wrong', 'chance'], Object.entries(troubleRates)),
  }
}
