/**
 * Asks the page's own server.
 * @throws Error with what it says is wrong
 */
export async function ask<T>(name: string, body?: unknown, query = ''): Promise<T> {
  const response = await fetch(
    `${name}/${query}`,
    body === undefined
      ? {}
      : {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(body),
        },
  );
  const found = (await response.json()) as T & { error?: string };
  if (!response.ok) throw new Error(found.error ?? `The server answered ${response.status}.`);
  return found;
}
