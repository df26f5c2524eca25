/** Messages written whole. */
import { Writable } from 'node:stream';

/**
 * A stream that puts the head of a message and what it heads into one write. The protocol's library writes the two apart, which
 * wakes the editor twice for each message, the first time for nothing.
 */
export function wholeMessages(output: NodeJS.WritableStream): Writable {
  let head: Buffer | undefined;
  return new Writable({
    write(chunk: Buffer, _encoding, done) {
      if (head === undefined && isHead(chunk)) {
        head = chunk;
        done();
        return;
      }
      const whole = head === undefined ? chunk : Buffer.concat([head, chunk]);
      head = undefined;
      output.write(whole, done);
    },
  });
}

function isHead(chunk: Buffer): boolean {
  return chunk.subarray(0, HEAD_BEGINS.length).equals(HEAD_BEGINS) && chunk.subarray(-HEAD_ENDS.length).equals(HEAD_ENDS);
}

const HEAD_BEGINS = Buffer.from('Content-');
const HEAD_ENDS = Buffer.from('\r\n\r\n');
