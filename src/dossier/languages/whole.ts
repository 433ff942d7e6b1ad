/** A name that no line breaks at its hyphens: `meter-A`; some languages would write the hyphen twice there. */
export const whole = (name: string): string => name.replaceAll("-", "-\u2060");
