// The script that a page embeds designs with. It defines the element once, however many
// scripts of however many builds a page has, and knows where its core is from where it
// came itself.
const script = document.currentScript;
const name = 'springrib-design';

if (!customElements.get(name) && !(name in globalThis)) {
  Object.defineProperty(globalThis, name, { value: true }); // a second script may come while this one is at it
  const base = script instanceof HTMLScriptElement && script.src ? script.src : location.href;
  void import('./element').then(({ define }) => define(name, base));
}

export {};
