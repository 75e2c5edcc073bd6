package index

// lookup collects the rows of one chunk, for one search. After the first error
// it collects nothing; the error stands in err.
type lookup struct {
	texts *texts
	chunk Chunk
	keys  keys
	found map[string]keyMatches
	err   error
}

func newLookup(t *texts, c Chunk) *lookup {
	l := &lookup{texts: t, chunk: c, found: map[string]keyMatches{}}
	l.keys, l.err = readKeys(c.Keys)
	return l
}

func (l *lookup) set() rowSet { return newRowSet(l.keys.rows) }

// inKeys gives the rows whose part number or codes an asked text meets.
func (l *lookup) inKeys(text string) keyMatches {
	m, ok := l.found[text]
	if !ok {
		m = l.keys.find(text)
		l.found[text] = m
	}
	return m
}

// addPart adds the rows whose part number a key is.
func (l *lookup) addPart(to rowSet, key string) {
	l.addKeys(to, key, func(m keyMatches) rowSet { return m.part })
}

// addPartBegins adds the rows whose part number begins with a key.
func (l *lookup) addPartBegins(to rowSet, key string) {
	l.addKeys(to, key, func(m keyMatches) rowSet { return m.partBegins })
}

// addWord adds the rows that hold a word.
func (l *lookup) addWord(to rowSet, word string) {
	l.addKeys(to, word, func(m keyMatches) rowSet { return m.word })
	l.addTexts(to, wordQuestion{word, asWord})
}

// addWordBegins adds the rows that hold a word that begins so.
func (l *lookup) addWordBegins(to rowSet, word string) {
	l.addKeys(to, word, func(m keyMatches) rowSet { return m.wordBegins })
	l.addTexts(to, wordQuestion{word, asBeginning})
}

// addNearPart adds the rows whose part number a key is but for one typing
// error.
func (l *lookup) addNearPart(to rowSet, key string) {
	if l.err == nil {
		to.or(l.keys.nearPart(key))
	}
}

// addNearWord adds the rows that hold a word but for one typing error.
func (l *lookup) addNearWord(to rowSet, word string) {
	if l.err == nil {
		to.or(l.keys.nearWord(word))
	}
	l.addTexts(to, wordQuestion{word, asTypo})
}

func (l *lookup) addKeys(to rowSet, key string, of func(keyMatches) rowSet) {
	if l.err == nil && key != "" {
		to.or(of(l.inKeys(key)))
	}
}

func (l *lookup) addTexts(to rowSet, q wordQuestion) {
	if l.err != nil || q.word == "" {
		return
	}
	wanted, err := l.texts.with(q)
	if err != nil {
		l.err = err
		return
	}
	if wanted == nil {
		return
	}
	for i := range l.chunk.Slots {
		if !l.chunk.Slots[i].add(to, wanted, l.keys.rows) {
			l.err = errSlot
		}
	}
}
