/** The status of a program that reads a board at 50 samples a second and has nothing to complain of. */
import type { Board } from '#core/link.ts';
import type { Status } from '#core/live-messages.ts';

export const ATTACHED_BOARD: Board = {
  id: 'usb:1209:0001:demo',
  path: '/dev/ttyACM0',
  name: 'USB board',
  vendorId: '1209',
  productId: '0001',
  serialNumber: null,
  location: null,
};

export function statusOf(more: Partial<Status> = {}): Status {
  return {
    version: '0.1.0',
    session: { id: 's1', name: 'Session of 14 March', startedAt: '2026-03-14T14:00:00+01:00' },
    recordingId: 1,
    simulated: false,
    playing: null,
    port: { phase: 'open', board: ATTACHED_BOARD },
    health: 'reading',
    unnamedFields: null,
    namedColumns: [],
    sampleRate_Hz: 50,
    wantedSampleRate_Hz: 100,
    board: null,
    clockDrift_ppm: null,
    offers: [],
    faults: {
      malformed: 0,
      checksum: 0,
      tooLong: 0,
      fieldCount: 0,
      notFinite: 0,
      outOfRange: 0,
      sequenceGap: 0,
    },
    store: { ok: true, message: null },
    networkChange: 0,
    notices: [],
    ...more,
  };
}
