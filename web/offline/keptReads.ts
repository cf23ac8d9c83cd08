/** Answers that are worth having without a connection: which store, the desk, look-up, units, visits and their cards. */
const kept = [
  /^\/api\/(state|desk|find|fleet-list|visits|cards)$/,
  /^\/api\/units\/[^/]+$/,
  /^\/api\/units\/[^/]+\/(desk|looks|photos|history)$/,
  /^\/api\/visits\/[^/]+\/card$/,
];

/** Whether the answer of an address is kept on the device; those for another day than the store's own are not. */
export function isKeptRead(address: URL): boolean {
  return !address.searchParams.has('asOf') && kept.some((form) => form.test(address.pathname));
}
