package migrations

// Files are the embedded files, for a test that leaves one out.
var Files = files
