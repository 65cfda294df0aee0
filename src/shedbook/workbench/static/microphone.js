// The microphone, only while the author records: its samples as a WAV file, without what browsers do to speech.

export const MOST_S = 600;
const SOUNDS = /\.(wav|wave|flac|mp3|ogg|oga|opus)$/i;
const HEAD = 44; // bytes before the samples of a WAV file with PCM [RIFF/WAVE, Microsoft and IBM 1991]

/** Whether a file is a recording, by its kind or its name. */
export const isSound = (file) => (file.type.startsWith("audio/") && !file.type.includes("midi")) || SOUNDS.test(file.name);

export const canRecord = () => Boolean(navigator.mediaDevices?.getUserMedia && window.AudioWorkletNode);

/** Begin to record. `told(seconds, peak)` is called as it goes on; `stop()` gives the samples as a WAV file, or null. */
export async function record(told) {
  const plain = { echoCancellation: false, noiseSuppression: false, autoGainControl: false, channelCount: 1 };
  const stream = await navigator.mediaDevices.getUserMedia({ audio: plain });
  const context = new AudioContext();
  const blocks = [];
  let count = 0;
  const end = async () => {
    for (const track of stream.getTracks()) track.stop();
    await context.close();
  };
  try {
    await context.audioWorklet.addModule("/static/microphone_tap.js");
  } catch (error) {
    await end();
    throw error;
  }
  const tap = new AudioWorkletNode(context, "tap", { channelCount: 1, channelCountMode: "explicit" });
  const most = MOST_S * context.sampleRate;
  tap.port.onmessage = ({ data }) => {
    if (count >= most) return;
    let peak = 0;
    const block = Int16Array.from(data, (sample) => {
      peak = Math.max(peak, Math.abs(sample));
      return Math.round(Math.max(-1, Math.min(1, sample)) * 32767);
    });
    blocks.push(block);
    count += block.length;
    told(count / context.sampleRate, peak);
  };
  context.createMediaStreamSource(stream).connect(tap);
  tap.connect(context.destination);
  return {
    stop: async () => {
      tap.port.onmessage = null;
      const rate = context.sampleRate;
      await end();
      return count ? wav(blocks, count, rate) : null;
    },
  };
}

function wav(blocks, count, rate) {
  const view = new DataView(new ArrayBuffer(HEAD));
  const letters = (at, text) => [...text].forEach((one, index) => view.setUint8(at + index, one.charCodeAt(0)));
  letters(0, "RIFF");
  view.setUint32(4, HEAD - 8 + 2 * count, true);
  letters(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true); // PCM
  view.setUint16(22, 1, true); // one channel
  view.setUint32(24, rate, true);
  view.setUint32(28, 2 * rate, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  letters(36, "data");
  view.setUint32(40, 2 * count, true);
  return new Blob([view, ...blocks], { type: "audio/wav" });
}
