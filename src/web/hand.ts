/** True where a finger points, for which a line of small print is no target. */
export const gloved = matchMedia('(pointer: coarse)').matches;
