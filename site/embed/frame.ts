// The page inside a frame, for hosts that allow no scripts: one design, which the part of
// the address after "#" names. It tells the page around it how high it is, and takes a
// design from that page and from nobody else.
const design = document.querySelector('springrib-design')!;

/** Reads the address: #design=...&view=bent&live&scheme=light. */
function read(): void {
  const asked = new URLSearchParams(location.hash.slice(1));
  for (const name of ['design', 'view', 'scheme'] as const) {
    const value = asked.get(name);
    if (value !== null) design.setAttribute(name, value);
  }
  design.toggleAttribute('live', asked.has('live'));
}

// The height is no secret, so whoever holds the frame may have it.
function tell(): void {
  if (parent !== window) parent.postMessage({ springrib: 'height', height: Math.ceil(document.documentElement.getBoundingClientRect().height) }, '*');
}

function hear(event: MessageEvent<unknown>): void {
  if (event.source !== parent || parent === window) return;
  const said = event.data as { springrib?: unknown; design?: unknown } | null;
  if (said?.springrib === 'design' && typeof said.design === 'string') design.setAttribute('design', said.design);
}

addEventListener('hashchange', read);
addEventListener('message', hear);
new ResizeObserver(tell).observe(document.documentElement);
read();

export {};
