"""A setup handed from shop to shop as one ordinary zip: what is in it, how it is written and trusted."""
