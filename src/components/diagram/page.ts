import { answerDrawing } from './answer.ts';
import type { DrawingData } from './data.ts';

const written = document.getElementById('drawing-data')?.textContent ?? '';
const link = document.querySelector('#diagram .pan a[data-terminal]');
answerDrawing(
  JSON.parse(written) as DrawingData,
  link?.getAttribute('href')?.replace(/#.*/, '') ?? '',
);
