/** The real port class over the port library's own mock binding (binding-mock), no hardware. */
import { SerialPortMock } from 'serialport';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { PortRefusal } from '../../../server/sources/ports.ts';
import { createSystemPorts } from '../../../server/sources/system-ports.ts';

const PATH = '/dev/mock';
const ports = createSystemPorts(() => Promise.resolve(SerialPortMock));

beforeEach(() => SerialPortMock.binding.createPort(PATH));
afterEach(() => SerialPortMock.binding.reset());

describe('the real port class', () => {
  it('refuses a port that is locked, in our words, and opens it once it is free', async () => {
    const first = await ports.open(PATH, 115_200);
    const refused = await ports.open(PATH, 115_200).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(PortRefusal);
    expect(refused).toMatchObject({ code: 'busy' });
    await first.close();
    const second = await ports.open(PATH, 115_200);
    await second.close();
  });

  it('changes speed and lines of an open port', async () => {
    const port = await ports.open(PATH, 115_200);
    await port.changeSpeed(9_600);
    await port.setDtr(false);
    await port.close();
  });
});
