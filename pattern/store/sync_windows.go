package store

// syncFolder does nothing: the move that ends a save writes through on Windows.
func syncFolder(string) error { return nil }
