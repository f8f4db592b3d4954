import '../../offline/client.ts';
import '../../search/client.ts';
import { showBuilt } from './built.ts';
import { offerCopies } from './copy-table.ts';
import { focusSearchOnSlash } from './focus-search.ts';
import { keepRecent, offerPin, showKept } from './kept.ts';
import { offerPrint, offerShare } from './share.ts';

focusSearchOnSlash();
offerPin();
offerShare();
offerPrint();
offerCopies();
showKept();
keepRecent();
void showBuilt();
