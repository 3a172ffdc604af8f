/** What follows a number of a hundred: the space before the sign does not break, or the two could part at a line's end. */
export const percentSign = '\u00a0%';
