/**
 * The sketches as machine code on emulated boards. All in one file, so that they run at the same
 * time: each takes as long as a board takes, and only a quarter of a processor.
 */
import { describe } from 'vitest';
import { needsFirmwareTools } from '../../support/needs.ts';
import { adcBoard } from './adc-board.suite.ts';
import { limits, midStream, samples } from './limits.suite.ts';
import { line } from './line.suite.ts';
import { emulatedMonitor, monitorBoard } from './monitor-board.suite.ts';

needsFirmwareTools().describe('emulated boards', () => {
  describe.concurrent('adc-board', adcBoard);
  describe.concurrent('the line from the board', line);
  describe.concurrent('monitor-board', monitorBoard);
  describe.concurrent('the emulated monitor', emulatedMonitor);
  describe.concurrent('limits of the sketches', limits);
  describe.concurrent('samples of adc-board', samples);
  describe.concurrent('a board in mid-stream', midStream);
});
