// What stands on the shelf of a new design. It is loaded when that is first shown.
import things from 'springrib:things';

export { things };
