import { keepChoices } from './choices.ts';
import { moveInGrids } from './grid-keys.ts';

keepChoices();
moveInGrids();
