package web

// WriteShelf lets the browser tests make a new version of a built page.
var WriteShelf = writeShelf
