import stringWidth from 'string-width'
import { describe, expect, it } from 'vitest'
import { clipboardText } from '../../src/output/clipboard-text.js'
import { everywhere, smallClipboard } from './small-clipboard.js'

describe('the clipboard as text', () => {
  it('tells the site, then the area, each thing with what to write beside it', () => {
    expect(clipboardText(smallClipboard)).toBe(`OAK SCHOOL
1 Invented Road. The ledger as it stood on 2026-03-31.
! Not the whole site: 2 other areas are not on this page: Gym, Store.
! One record dated after the as-of day was not looked at.

  by [____________________]   day [____________________]   from [________]
  to [________]   purpose: [  ] routine   [  ] callback   [  ] trap check
  [  ] follow up   [  ] set up

Site manager to meet: Tor Lind
  [  ] met   [  ] someone standing in   [  ] left word
Complaint log: front office
  [  ] read   [  ] not found   [  ] locked away

Complaints waiting: 1
  * 2026-03-04-marsh Main kitchen, mouse: rustling

Every device gets a mark: none, a count, or why it was not read (missing,
  damaged, wet, full, or not reached). An empty row was not looked at.

Before you start
  * hands: Wear gloves.
  * bats: Never touch a bat.

================================================================================
MAIN KITCHEN
kitchen, floor 1
Key: ring 3; let in by cook
Take care: bats: see "Before you start"
  [  ] inspected   could not be entered, because [_____________________________]

Look at
  [  ] floor drains

Complaint 2026-03-04-marsh: rustling
  found and said [_____________________________________________________________]

Sticky trap, for German cockroach

  K1
      last look 2026-03-08: none
      [  ] none   count [____________________]   bait gone: [  ] some   [  ] all

  K2, marked #17, 2 traps, for Pharaoh ant, picked up 2026-03-08, not out now
      last look 2026-03-08: none
      [  ] none   count [____________________]   bait gone: [  ] some   [  ] all

Open conditions

  drip: drip under sink
      found 2026-03-01, for maintenance, to be mended by 2026-03-20
      [  ] still there   [  ] fixed now   [  ] closed: found put right
      how it is now [__________________________________________________________]

Put right: look again

  crack: crack in tiles
      found 2026-03-01, repaired 2026-03-10
      [  ] holds   [  ] back again   how it is now [___________________________]

Found now, outside devices

  pest, or what is wrong [_____________________________________________________]
  evidence and age, or what it gives [_________________________________________]
  how many [________]   where exactly [________________________________________]

  pest, or what is wrong [_____________________________________________________]
  evidence and age, or what it gives [_________________________________________]
  how many [________]   where exactly [________________________________________]

  pest, or what is wrong [_____________________________________________________]
  evidence and age, or what it gives [_________________________________________]
  how many [________]   where exactly [________________________________________]

================================================================================
NO AREA RECORDED
The records name no area for this.

================================================================================
  entered by [____________________]   on [_____________________________________]
`)
  })

  it.each([
    ['many words', 'a long story about a gap under the door '.repeat(20).trim()],
    ['a word without end', 'x'.repeat(500)],
    ['wide letters', '調理室の排水口'.repeat(40)],
    ['lines', 'one\nline\r\nafter\n\nanother '.repeat(20).trim()],
  ])('fits 80 columns, and loses nothing: %s', (_, text) => {
    const printed = clipboardText(everywhere(text))
    for (const line of printed.split('\n')) expect(stringWidth(line)).toBeLessThanOrEqual(80)
    const together = (one: string) => one.replace(/\s+/g, '')
    // Address, site manager, complaint log, 2 cautions twice over, ...: far more than twenty places.
    expect(together(printed).split(together(text)).length).toBeGreaterThan(20)
  })

  it('shows control characters and direction marks and does not send them', () => {
    const printed = clipboardText(everywhere('a\u001b[31mb\u202ec\u0007'))
    expect(printed).toContain('a\\u001b[31mb\\u202ec\\u0007')
    expect(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/.test(printed)).toBe(false)
  })
})
