/**
 * What charts are painted with: one blue in steps of lightness, and black. Steps stay apart in grey print and for people
 * who see colours otherwise; nothing is told by colour alone.
 */
export const ink = '#1a1a1a'
export const blue = '#12395c'
/** Still three times as dark as white (WCAG 2.1, 1.4.11), so that a thin bar of it is seen. */
export const paleBlue = '#5b93bf'
/** Of lines that only lead the eye. */
export const faint = '#c4c8cc'

/** Parts of a bar, the palest first; letters on each are dark or white. */
const steps = [
  { fill: '#e3eef6', letters: ink },
  { fill: '#a9cbe2', letters: ink },
  { fill: '#6ba3cc', letters: ink },
  { fill: '#2b6699', letters: '#fff' },
  { fill: blue, letters: '#fff' },
] as const

export interface PartPaint {
  readonly fill: string
  readonly letters: string
}

/** A step of lightness for a part, from pale to dark over as many as there are; alone it is dark. */
export function partPaint(at: number, parts: number): PartPaint {
  const last = steps.length - 1
  const step = parts <= 1 ? last - 1 : Math.round((at * last) / (parts - 1))
  return steps[Math.min(step, last)] ?? steps[0]
}

/** The edge of a part: the palest would else not be seen on white. */
export const partEdge = `stroke="${blue}" stroke-width="0.8"`

/** Slanted lines for where nothing is known. */
export function hatching(id: string): string {
  return `<defs><pattern id="${id}" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="6" stroke="#8a9096" stroke-width="1.6"/></pattern></defs>`
}

/** The same for a legend, line by line: a pattern of another drawing is not shown where that one is hidden. */
export const hatchedIcon = `<rect x="1" y="2" width="14" height="12" fill="none" stroke="#8a9096" stroke-width="0.8"/><path d="M1 7L6 2M1 13L12 2M5 14L15 4M11 14L15 10" stroke="#8a9096" stroke-width="1.6"/>`

export function boxIcon(fill: string): string {
  return `<rect x="1" y="2" width="14" height="12" fill="${fill}" ${partEdge}/>`
}
