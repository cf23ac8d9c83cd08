import type { RequestHandler } from 'express';
import { Problem } from './problem.ts';

/**
 * Answers only requests that name this server as their host, and takes writes only from its own pages: no web page
 * elsewhere can read from or post to the loopback server, nor reach it under a name of its own.
 * @param hosts host names (without port) under which the server may be reached
 */
export function sameOrigin(hosts: readonly string[]): RequestHandler {
  return (request, _response, next) => {
    const host = request.headers.host ?? '';
    const name = host.replace(/:\d+$/, '').toLowerCase();
    if (!hosts.includes(name))
      throw new Problem(421, 'wrong_host', `This server answers as ${hosts[0]}, not as "${name}".`);
    const origin = request.headers.origin;
    const site = request.headers['sec-fetch-site'];
    const foreign =
      (origin !== undefined && origin !== `http://${host}`) || site === 'cross-site' || site === 'same-site';
    const navigates = request.method === 'GET' && request.headers['sec-fetch-mode'] === 'navigate';
    if (foreign && !navigates)
      throw new Problem(
        403,
        'foreign_page',
        'Requests from other web pages are not taken. Open the page of this server.',
      );
    next();
  };
}
