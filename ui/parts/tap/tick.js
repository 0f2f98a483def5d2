// The soft tick that a pick may make; whether it does is kept on this device.

const KEPT = "fellmark.tick";

export function isLoud() {
  return localStorage.getItem(KEPT) === "on";
}

/** @param {boolean} loud */
export function setLoud(loud) {
  localStorage.setItem(KEPT, loud ? "on" : "off");
}

/** A short dry tick. */
export function ticker() {
  /** @type {AudioContext | null} */
  let audio = null;
  return () => {
    audio ??= new AudioContext();
    const tone = audio.createOscillator();
    const volume = audio.createGain();
    const now = audio.currentTime;
    tone.frequency.setValueAtTime(880, now);
    tone.frequency.exponentialRampToValueAtTime(220, now + 0.04);
    volume.gain.setValueAtTime(0.12, now);
    volume.gain.exponentialRampToValueAtTime(0.0001, now + 0.06);
    tone.connect(volume).connect(audio.destination);
    tone.start(now);
    tone.stop(now + 0.07);
  };
}
