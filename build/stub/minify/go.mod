module github.com/tdewolff/minify/v2

go 1.26
