// Runs beside the page's own scripts: hands on what the microphone gives, block by block, and sounds nothing.

class Tap extends AudioWorkletProcessor {
  process([input]) {
    if (input.length) this.port.postMessage(input[0].slice());
    return true;
  }
}

registerProcessor("tap", Tap);
