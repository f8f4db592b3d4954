/// <reference types="astro/client" />
import type { ComputedSystem } from './reference/index.ts';

declare global {
  namespace App {
    interface Locals {
      /** The system whose page is being made, for the components of its prose. */
      system?: ComputedSystem;
      /** Address of the page with that system's readings; absent where they stand on this one. */
      readings?: string;
    }
  }
}
