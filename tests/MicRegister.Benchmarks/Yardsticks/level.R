# use: Rscript level.R FILE SERIES LENGTH : prints the seconds that StructTS takes for a local level by maximum likelihood of all series,
# and the sum of the noise variances. FILE holds doubles, one series after the other.
a <- commandArgs(TRUE); n <- as.integer(a[2]); k <- as.integer(a[3])
y <- matrix(readBin(a[1], "double", n * k), k)
s <- 0
took <- system.time(for (i in 1:n) s <- s + StructTS(y[, i], "level")$coef[["epsilon"]], gcFirst = FALSE)[["elapsed"]]
cat(took, s, "\n")
