// The mark of Springrib: an arc of short ticks over a wedge. icon.svg is the same drawing.
import { html } from 'lit';

/** The mark, in the colour of the text around it. */
export const icon = html`<svg class="mark" viewBox="0 0 32 32" aria-hidden="true">
  <path class="wedge" d="M9.3 28.5A18.2 18.2 0 0 1 27.5 10.3V28.5z" />
  <path class="ticks" d="M6.4 27L2 26.7M7.1 22.8L2.9 21.6M8.7 18.7L4.8 16.7M11 15.1L7.6 12.4M14.1 12.1L11.3 8.7M17.7 9.7L15.7 5.8M21.7 8.1L20.5 3.9M26 7.4L25.7 3" />
</svg>`;
