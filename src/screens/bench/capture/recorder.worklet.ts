/** Runs in the browser's audio thread: hands every sample on as it came, with its place in time. */

interface AudioWorkletProcessorShape {
  readonly port: MessagePort;
}
declare const AudioWorkletProcessor: { new (): AudioWorkletProcessorShape };
declare function registerProcessor(name: string, made: new () => AudioWorkletProcessorShape): void;
declare const currentFrame: number;

/** Samples gathered before they are handed over. */
const parcel = 4096;

class Recorder extends AudioWorkletProcessor {
  private first = 0;
  private held = 0;
  private channels: Float32Array<ArrayBuffer>[] = [];

  process(inputs: readonly (readonly Float32Array[])[]): boolean {
    const input = inputs[0] ?? [];
    const length = input[0]?.length ?? 0;
    if (length === 0) return true;
    if (this.held > 0 && this.channels.length !== input.length) this.handOver();
    if (this.held === 0) {
      this.first = currentFrame;
      this.channels = input.map(() => new Float32Array(parcel));
    }
    for (const [c, samples] of input.entries()) this.channels[c]!.set(samples, this.held);
    this.held += length;
    if (this.held + length > parcel) this.handOver();
    return true;
  }

  private handOver(): void {
    const samples = this.channels.map((channel) => channel.slice(0, this.held));
    this.port.postMessage(
      { first: this.first, samples },
      samples.map(({ buffer }) => buffer),
    );
    this.held = 0;
  }
}

registerProcessor("stillglow-recorder", Recorder);
