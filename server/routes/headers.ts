/** Headers on every response, refusals included. */

/**
 * Nothing is allowed but what this server itself serves. `ws:` is named in full because not every
 * browser takes 'self' to cover it. No Strict-Transport-Security: there is no https at the bench.
 */
export function securityHeaders(host: string | undefined): Record<string, string> {
  const live = host === undefined ? '' : ` ws://${host}`;
  return {
    'content-security-policy': [
      "default-src 'none'",
      "script-src 'self'",
      "style-src 'self'",
      "img-src 'self'",
      "font-src 'self'",
      `connect-src 'self'${live}`,
      "base-uri 'none'",
      "form-action 'none'",
      "frame-ancestors 'none'",
    ].join('; '),
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'cross-origin-resource-policy': 'same-origin',
    'cache-control': 'no-store',
  };
}
