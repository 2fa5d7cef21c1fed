// Where the page changes from two columns to one. The style sheet has the same width.

/** Matches while the window has room for one column only. */
export const narrow = matchMedia('(max-width: 760px)');

/** Matches while the head has no room for all its words in one line. */
export const tight = matchMedia('(max-width: 1000px)');
