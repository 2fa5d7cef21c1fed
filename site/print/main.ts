// The typeface that goes along in PDFs. It is loaded when the first is asked for.
import faces from 'springrib:faces';

export { faces };
