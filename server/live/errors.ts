/**
 * Why the server closes a live connection (RFC 6455, 7.4.1: 1001 going away, 1008 policy violation,
 * 1013 try again later, from the IANA registry). The reason that the page receives is
 * `code: sentence`, at most 123 bytes; each is explained in docs/errors.md.
 */
export const CLOSINGS = {
  full: { code: 'viewers-full', status: 1013, sentence: 'Too many viewers. Close some pages and try again.' },
  slow: { code: 'viewer-too-slow', status: 1013, sentence: 'This viewer could not keep up. It may come back.' },
  refused: { code: 'message-refused', status: 1008, sentence: 'The page sent something that is not understood.' },
  flood: { code: 'too-many-messages', status: 1008, sentence: 'The page asked too often. Reload it.' },
  stopping: { code: 'server-stopping', status: 1001, sentence: 'The server is stopping.' },
} as const;
export type Closing = (typeof CLOSINGS)[keyof typeof CLOSINGS];
