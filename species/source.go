package species

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern/tell"
)

// A Source says where a value comes from and how far it was checked.
type Source struct {
	Text   string
	Status Status
}

// A Status says how far a value was checked. Its zero value is no standing, so that
// a forgotten source never passes for a verified one.
type Status int

// The standings of a value, the firmest first.
const (
	Verified Status = iota + 1 // read in the named source
	Derived                    // computed from the named inputs
	Memory                     // not checked in a copy of the source
	Yours                      // from the maker's own file
	None                       // no published value found
)

// Statuses lists every standing, the firmest first.
func Statuses() []Status { return []Status{Verified, Derived, Memory, Yours, None} }

// String returns the word that files and the screen use.
func (s Status) String() string {
	return tell.Word(s, "status", "status(0)", "verified", "derived", "memory", "yours", "none")
}

// Told returns the standing in the words that are explained by Legend.
func (s Status) Told() string {
	return tell.Word(s, "status", "status(0)", "read", "worked out", "unchecked", "yours", "none published")
}

// Legend explains the words of Told.
const Legend = "read: in the source named; worked out: from it, or from the values named; unchecked: not read in a source; " +
	"yours: from your own species.toml; none published: none was found"

// ParseStatus reads the word of a standing.
func ParseStatus(word string) (Status, error) {
	if s, ok := tell.Named(word, Statuses()); ok {
		return s, nil
	}
	return 0, fmt.Errorf("%q is no standing: must be verified, derived, memory, yours or none", word)
}

// String returns the source as files have it: the text, then the standing in brackets.
// The zero Source gives nothing.
func (s Source) String() string { return s.with(s.Status.String()) }

// Told is String with the standing in the words of Legend.
func (s Source) Told() string { return s.with(s.Status.Told()) }

func (s Source) with(standing string) string {
	if s == (Source{}) {
		return ""
	}
	return strings.TrimSpace(s.Text + " (" + standing + ")")
}

// UnmarshalText is ParseSource, for the table of timbers.
func (s *Source) UnmarshalText(text []byte) error {
	*s = ParseSource(string(text))
	return nil
}

// ParseSource parts a source's text from the standing in brackets at its end. A text
// without a known standing is the maker's own: Yours.
func ParseSource(text string) Source {
	text = strings.TrimSpace(text)
	at := strings.LastIndex(text, "(")
	if at >= 0 && strings.HasSuffix(text, ")") {
		if status, err := ParseStatus(text[at+1 : len(text)-1]); err == nil {
			return Source{Text: strings.TrimSpace(text[:at]), Status: status}
		}
	}
	return Source{Text: text, Status: Yours}
}
