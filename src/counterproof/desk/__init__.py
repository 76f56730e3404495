"""The desk: the live proof in a browser, on loopback, over the same plain files."""
