package histories

// Shrunk is the smallest history that is still wrong, found by leaving out lines and
// keys as long as it stays so.
func Shrunk(h History, wrong func(History) bool) History {
	for smaller := true; smaller; {
		smaller = false
		for _, l := range h.Lines {
			if less := h.Cut(l.ID); wrong(less) {
				h, smaller = less, true
				continue
			}
			for _, k := range l.Keys {
				without := func(l Line) Line { return l.Without(k.Name) }
				if less := h.Changed(l.ID, without); len(l.Keys) > 1 && wrong(less) {
					h, smaller = less, true
				}
			}
		}
	}
	return h
}
