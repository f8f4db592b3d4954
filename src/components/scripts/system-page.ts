import { keepChoices } from './choices.ts';
import { moveInGrids } from './grid-keys.ts';
import { sliceForPrint } from './print-slices.ts';

keepChoices();
moveInGrids();
sliceForPrint();
