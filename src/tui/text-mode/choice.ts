// What a screen is told as: lines, numbered choices and what can be typed. It must never know a screen.

export interface Choice {
  /** A riding position, an option or an event: what the number stands for, also when the list has changed since. */
  value: string
  label: string
  /** A line of its own before it. */
  under?: string
}
export interface Spoken {
  lines: string[]
  choices: Choice[]
  /** What can be typed now. */
  hint: string
  /** It is told whole: what is confirmed has to be heard first. */
  isWhole?: true
}

export const BACK = 'b goes one step back.'
