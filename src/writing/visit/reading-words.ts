import { pestName } from '../../reports/pest-name.js'
import type { Yaml, YamlMap } from '../demo/yaml.js'
import { flowText } from '../demo/yaml.js'

/** A reading in words, as it was understood. */
export function readingInWords(reading: YamlMap): string {
  return Object.entries(reading)
    .map(([key, value]) => factInWords(key, value ?? ''))
    .join(', ')
}

function factInWords(key: string, value: Yaml): string {
  if (value === 'yes') return key
  if (key === 'unusable') return flowText(value)
  if (key === 'other-count') return `${flowText(value)} of it`
  if (typeof value === 'string') return `${key} ${value}`
  return typeof value === 'number'
    ? `${value} ${pestName(key)}`
    : `${pestName(key)} (${stagesInWords(value as YamlMap)})`
}

function stagesInWords(stages: YamlMap): string {
  return Object.entries(stages)
    .map(([stage, number]) => `${stage} ${number}`)
    .join(', ')
}
