/**
 * Script of the home page that runs before anything is drawn: says at the root how many visits,
 * pins and recent pages this phone keeps, so that styles keep their room and nothing moves when
 * they are filled in.
 */
export const KEPT_COUNTS = `for(const n of['visits','pins','recents','unread'])try{const k=JSON.parse(localStorage.getItem('proveline.'+n)).length;if(k>0)document.documentElement.dataset[n]=Math.min(k,6)}catch{}`;
