/** Every bound of the live feed, and what happens at it. */
export const FEED_LIMITS = {
  /** Above this many viewers a newcomer is closed with `viewers-full`. */
  viewers: 500,
  /** Samples wait at most this long for others to share a frame with. */
  flush_ms: 16,
  /** … and longer with many viewers, so that sending never takes more than 10 000 frames a second. */
  flushPerViewer_ms: 0.1,
  /** Snapshots are built at most this often; viewers that come in between share one. */
  snapshot_ms: 100,
  /** With more than this waiting, a viewer is sent no samples, judgements or status: latest wins. */
  behind_bytes: 64 * 1024,
  /** With more than this waiting on top of its snapshot, it is closed with `viewer-too-slow`. */
  backlog_bytes: 1024 * 1024,
  /** Liveness, stuck viewers and the status that goes out in any case are looked after this often. */
  beat_ms: 1_000,
  /** A viewer that neither answers pings nor takes any of its backlog for so long is closed. */
  silence_ms: 10_000,
  /** Time for the closing handshake before the connection is cut. */
  farewell_ms: 2_000,
  /** Messages and pings from one viewer; more are answered with `too-many-messages`. */
  inbound: { burst: 10, perSecond: 1 },
};
export type FeedLimits = typeof FEED_LIMITS;

/** Bounds on what one viewer may send, kept by the WebSocket library; it closes with 1009 or 1008. */
export const INBOUND = { maxPayload: 4 * 1024, maxFragments: 8, maxBufferedChunks: 64 };
