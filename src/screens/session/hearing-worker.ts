/// <reference lib="webworker" />
/** The hearing thread with a sense of meaning: rivals that mean the same as what was heard are none. */
import { linkGrammars } from '../../grammar';
import { bundledSources } from '../../grammar/sources.browser';
import { createParser, createSameMeaning } from '../../parser';
import { serve } from '../../recogniser/serve';

serve({ sameMeaning: createSameMeaning(createParser(linkGrammars(bundledSources.grammars))) });
