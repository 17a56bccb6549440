import type { Line, YamlMap } from '../demo/yaml.js'
import { recordText } from '../demo/yaml.js'

/** Who did or noted a record and who typed it, as every event has it. */
export interface Noted {
  readonly by: string
  readonly 'entered-by'?: string | undefined
  readonly 'on-paper'?: string | undefined
}

type Facts = Readonly<Record<string, string | number | readonly string[] | undefined>>

/** The record of a complaint. */
export function complaintText(noted: Noted, facts: Facts, says: string): string {
  return recordText([...head(noted), ...linesOf(facts), ['says', says]])
}

/** The record of a repair. */
export function repairText(noted: Noted, facts: Facts, done: string): string {
  return recordText([...head(noted), ...linesOf(facts), ['done', done]])
}

/**
 * A sighting between visits is a small visit of whoever saw it: what was found, and nothing claimed of the rest.
 * `name` is the short name by which a later record refers to it.
 */
export function sightingText(noted: Noted, name: string, facts: Facts): string {
  return recordText([
    ['purpose', 'follow-up'],
    ...head(noted),
    [
      'found',
      {
        [name]: Object.fromEntries(
          Object.entries(facts).filter(([, value]) => value !== undefined),
        ) as YamlMap,
      },
    ],
  ])
}

function head({ by, ...rest }: Noted): Line[] {
  return [['by', by], ...linesOf(rest as Facts)]
}

const linesOf = (facts: Facts): Line[] => Object.entries(facts).map(([key, value]): Line => [key, value])
