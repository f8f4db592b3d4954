import { describe, expect, test } from 'vitest';
import { questionStyles, questionsFor } from '../../src/components/recognise/questions.ts';
import { commonest, complaintOf, grouped } from '../../src/components/symptom/complaints.ts';
import { shipped } from '../support/shipped.ts';

const { entries } = await shipped();
