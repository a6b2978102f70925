package choose

import "fmt"

// counted says which of how many entries are in view.
func counted(first, last, of int) string { return fmt.Sprintf(" %d-%d of %d ", first, last, of) }
