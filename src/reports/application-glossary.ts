import type { Table } from '../types.js'

/** Words that technicians write and parents may not know; meanings are common knowledge of the trade. */
const meanings: readonly (readonly [word: RegExp, shown: string, means: string])[] = [
  [/\b(?:sticky |glue )?boards?\b/i, 'board', 'a flat trap with glue on it; it shows which pests are about'],
  [/\bnymphs?\b/i, 'nymph', 'a young insect that is not grown up yet'],
  [/\bvoids?\b/i, 'void', 'a hollow space, such as inside a wall or a machine'],
  [/\bcatch(?:es)?\b/i, 'catch', 'what the traps held'],
  [/\bstations?\b/i, 'station', 'a closed box with bait in it that the pest can enter'],
  [/\bbaits?\b/i, 'bait', 'food with a pesticide in it, made for the pest to eat'],
  [/\bdroppings\b/i, 'droppings', 'what animals leave behind, here as a sign that they were there'],
  [/\begg[ -]cases?\b/i, 'egg case', 'a small capsule with the eggs of a cockroach'],
  [/\bworkers?\b(?! for)/i, 'worker', 'a wasp or ant that is not the queen'],
  [/\bburrows?\b/i, 'burrow', 'a hole in the ground in which rats live'],
  [/\bdoor sweeps?\b|\bsweeps?\b/i, 'sweep', 'a strip that closes the gap under a door'],
  [/\bharbou?rage\b/i, 'harborage', 'a place where pests can hide'],
  [/\bexclusion\b/i, 'exclusion', 'closing gaps so that pests cannot get in'],
  [/\bthresholds?\b/i, 'threshold', 'the number or sign at which the plan says to act'],
  [/\blarvae?\b/i, 'larva', 'a young insect that looks like a small worm'],
  [/\bnematodes?\b/i, 'nematode', 'a tiny worm; some kinds live on insects in the soil'],
  [/\bflush(?:ed|ing)\b/i, 'flushing', 'driving insects out of hiding to see them'],
]

/** The words of the trade that stand in the answers, each explained once; no table where there is none. */
export function wordsTable(tables: readonly Table[]): Table[] {
  const text = tables
    .flatMap(({ rows }) => rows.flatMap(({ cells }) => [cells.answer, cells.how, cells.place]))
    .filter((cell) => typeof cell === 'string')
    .join('\n')
  const rows = meanings
    .filter(([word]) => word.test(text))
    .map(([, shown, means]) => ({ cells: { word: shown, means }, records: [] }))
  if (rows.length === 0) return []
  return [
    {
      id: 'words',
      title: 'Words used above',
      columns: [
        { id: 'word', title: 'word' },
        { id: 'means', title: 'what it means' },
      ],
      rows,
      empty: '',
    },
  ]
}
