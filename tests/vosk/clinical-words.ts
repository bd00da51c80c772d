/**
 * Words of the hand examination and how they are said, for tests of the spellings: written down here so that the test does not
 * move with the grammar. Pronunciations in CMUdict's phones; common clinical practice, British or American, no source.
 */
export const CLINICAL_WORDS: ReadonlyMap<string, readonly string[]> = new Map(Object.entries({
  thenar: 'TH IY N ER', hypothenar: 'HH AY P OW TH IY N ER', tinel: 'T IH N EH L', phalen: 'F EY L AH N', froment: 'F R OW M AA N',
  wartenberg: 'W AO R T AH N B ER G', egawa: 'EH G AA W AH', bouvier: 'B UW V IY EY', finkelstein: 'F IH NG K AH L S T AY N', eichhoff: 'AY K AO F',
  adduction: 'AH D AH K SH AH N', abduction: 'AE B D AH K SH AH N', adductor: 'AH D AH K T ER', abductor: 'AE B D AH K T ER', flexor: 'F L EH K S ER',
  extensor: 'EH K S T EH N S ER', flexion: 'F L EH K SH AH N', pollicis: 'P AA L IH S IH S', brevis: 'B R EH V IH S', longus: 'L AO NG G AH S',
  carpi: 'K AA R P IY', radialis: 'R EY D IY AE L IH S', ulnaris: 'AH L N EH R IH S', ulnar: 'AH L N ER', digitorum: 'D IH JH IH T AO R AH M',
  digiti: 'D IH JH IH T IY', minimi: 'M IH N IH M IY', indicis: 'IH N D IH S IH S', profundus: 'P R AH F AH N D AH S', superficialis: 'S UW P ER F IH SH IY AE L IH S',
  brachioradialis: 'B R EY K IY OW R EY D IY AE L IH S', brachial: 'B R EY K IY AH L', supinator: 'S UW P IH N EY T ER', supination: 'S UW P IH N EY SH AH N',
  pronation: 'P R OW N EY SH AH N', pronator: 'P R OW N EY T ER', teres: 'T EH R IY Z', quadratus: 'K W AA D R EY T AH S', palmaris: 'P AA L M EH R IH S',
  opponens: 'AH P OW N AH N Z', lumbrical: 'L AH M B R IH K AH L', interosseous: 'IH N T ER AA S IY AH S', palmar: 'P AA M ER', volar: 'V OW L ER',
  retropulsion: 'R EH T R OW P AH L SH AH N', fasciculation: 'F AH S IH K Y AH L EY SH AH N', boutonniere: 'B UW T AH N IH R', heberden: 'HH EH B ER D AH N',
  bouchard: 'B UW SH AA R D', tenodesis: 'T EH N AA D AH S IH S', scaphoid: 'S K AE F OY D', scapholunate: 'S K AE F OW L UW N EY T', tubercle: 'T UW B ER K AH L',
  styloid: 'S T AY L OY D', pisiform: 'P IH S IH F AO R M', hamate: 'HH EY M EY T', guyon: 'G IY AA N', cubital: 'K Y UW B IH T AH L', metacarpals: 'M EH T AH K AA R P AH L Z',
  epicondyle: 'EH P IH K AA N D AY L', capillary: 'K AE P AH L EH R IY', metacarpophalangeal: 'M EH T AH K AA R P OW F AH L AE N JH IY AH L',
  interphalangeal: 'IH N T ER F AH L AE N JH IY AH L', dupuytren: 'D UW P W IY T R AH N', allodynia: 'AE L OW D IH N IY AH', hyperalgesia: 'HH AY P ER AE L JH IY Z IY AH',
  paraesthesia: 'P EH R AH S TH IY ZH AH', crepitus: 'K R EH P AH T AH S', erythema: 'EH R AH TH IY M AH', anconeus: 'AE NG K OW N IY AH S', triquetral: 'T R AY K W EH T R AH L',
  capitate: 'K AE P AH T EY T', trapezium: 'T R AH P IY Z IY AH M', lunate: 'L UW N EY T', paronychia: 'P EH R AH N IH K IY AH', tenosynovitis: 'T EH N OW S IH N AH V AY T AH S',
}).map(([word, pronunciation]) => [word, [pronunciation]]));

/** Plain words that stand beside them in a grammar and must stay free of confusion with the spellings. */
export const PLAIN_WORDS: ReadonlyMap<string, readonly string[]> = new Map(Object.entries({
  left: 'L EH F T', right: 'R AY T', thumb: 'TH AH M', index: 'IH N D EH K S', middle: 'M IH D AH L', ring: 'R IH NG', little: 'L IH T AH L', finger: 'F IH NG G ER',
  no: 'N OW', not: 'N AA T', normal: 'N AO R M AH L', reduced: 'R IH D UW S T', absent: 'AE B S AH N T', weak: 'W IY K', grade: 'G R EY D', zero: 'Z IH R OW', one: 'W AH N',
  two: 'T UW', three: 'TH R IY', four: 'F AO R', five: 'F AY V', plus: 'P L AH S', minus: 'M AY N AH S', positive: 'P AA Z AH T IH V', negative: 'N EH G AH T IH V',
  tunnel: 'T AH N AH L', wrist: 'R IH S T', palm: 'P AA M', tip: 'T IH P', and: 'AE N D', in: 'IH N', the: 'DH AH', is: 'IH Z',
}).map(([word, pronunciation]) => [word, [pronunciation]]));
