/** How text is emphasised; the plain one leaves it alone. Colour never carries meaning that words do not. */
export interface Painter {
  strong(text: string): string
  faint(text: string): string
  error(text: string): string
  warning(text: string): string
  note(text: string): string
}

const same = (text: string) => text

export const plainPainter: Painter = { strong: same, faint: same, error: same, warning: same, note: same }
