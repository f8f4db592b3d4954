/**
 * A voice of the phone's own that speaks English without a network; null where there is none,
 * or while the phone has not told its voices yet.
 */
const localVoice = (): SpeechSynthesisVoice | null =>
  typeof speechSynthesis === 'undefined'
    ? null
    : (speechSynthesis
        .getVoices()
        .find(({ lang, localService }) => localService && /^en\b/i.test(lang)) ?? null);

/** Whether something can be read aloud with no signal. */
export const canSpeak = (): boolean => localVoice() !== null;

/** Reads aloud, in place of what is being read. */
export function readAloud(text: string): void {
  const voice = localVoice();
  if (!voice) return;
  const words = new SpeechSynthesisUtterance(text);
  words.voice = voice;
  words.lang = voice.lang;
  speechSynthesis.cancel();
  speechSynthesis.speak(words);
}

/** Calls when the phone tells its voices, which some do late. @returns how to stop listening. */
export function onVoices(call: () => void): () => void {
  if (typeof speechSynthesis === 'undefined') return () => undefined;
  speechSynthesis.addEventListener?.('voiceschanged', call);
  return () => speechSynthesis.removeEventListener?.('voiceschanged', call);
}
