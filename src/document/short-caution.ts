/** What stands at the foot of every page: short enough for one line of print. The full caution is in the document's origin. */
export const shortCaution =
  'Compiled from records. No legal advice: the law, the standards and qualified people decide.';
