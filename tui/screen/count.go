package screen

import "fmt"

// Count gives so many of something: 1 strip, 2 strips.
func Count(n int, word string) string {
	if n != 1 {
		word += "s"
	}
	return fmt.Sprintf("%d %s", n, word)
}
