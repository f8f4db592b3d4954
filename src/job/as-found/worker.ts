import type { PartsData } from '../../composer/parts-data.ts';
import { arrangementOf } from '../arrangement.ts';
import type { JobData } from '../job-data.ts';
import type { EngineSource } from '../messages.ts';
import { FoundEngine } from './engine.ts';
import type { FromFound, ToFound } from './messages.ts';

let engine: FoundEngine | undefined;

const say = (message: FromFound) => self.postMessage(message);

self.addEventListener('message', ({ data }: MessageEvent<ToFound>) => {
  void answer(data).catch((failure: unknown) => {
    say({ type: 'failed', reason: failure instanceof Error ? failure.message : String(failure) });
  });
});

async function answer(message: ToFound): Promise<void> {
  if (message.type === 'open') {
    engine = new FoundEngine(await dataFrom(message));
    say({ type: 'opened', sheet: engine.sheet });
    return;
  }
  if (!engine) throw new Error('the engine was asked before its data came');
  switch (message.type) {
    case 'read':
      say({ type: 'read', text: message.text, link: engine.readLink(message.text) });
      return;
    case 'read readings':
      say({ type: 'readings', readings: engine.readReadings(message.text) });
      return;
    case 'work':
      say({
        type: 'worked',
        number: message.number,
        result: engine.work(message.found, message.readings),
      });
      return;
    case 'suggest':
      say({ type: 'suggested', suggestions: engine.suggest(message.readings) });
      return;
  }
}

async function dataFrom(
  source: EngineSource,
): Promise<ConstructorParameters<typeof FoundEngine>[0]> {
  if ('data' in source) return source.data;
  const address = 'specification' in source ? source.parts : source.address;
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address} answered ${response.status}`);
  if (!('specification' in source)) return (await response.json()) as JobData;
  return arrangementOf(source.specification, (await response.json()) as PartsData).data;
}
