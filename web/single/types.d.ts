// web/single/types.d.ts: the part of the library lzma1 that unpacks; the build knows where it lies.

declare module 'lzma1/decoder' {
  export class Decoder {
    decompress(input: import('lzma1/streams').InputBuffer, output: import('lzma1/streams').OutputBuffer): void;
  }
}
declare module 'lzma1/streams' {
  export class InputBuffer { constructor(data: Uint8Array); }
  export class OutputBuffer { constructor(capacity: number); toArray(): Uint8Array; }
}
