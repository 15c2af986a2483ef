# The same lines with vectorised R: whole matrices at once.   use: Rscript line.R FILE DEVICES RESULTS
a <- commandArgs(TRUE); N <- as.integer(a[2]); K <- as.integer(a[3]); n <- N * K
f <- file(a[1], "rb"); t <- matrix(readBin(f, "double", n), K); y <- matrix(readBin(f, "double", n), K); u <- matrix(readBin(f, "double", n), K); close(f)
took <- numeric(9)
for (i in 1:9) took[i] <- system.time({
  w <- 1 / u^2; y0 <- y[1, ]; z <- y - rep(y0, each = K); sw <- colSums(w); wt <- w * t; st <- colSums(wt); sy <- colSums(w * z)
  stt <- colSums(wt * t); sty <- colSums(wt * z); D <- sw * stt - st^2; b <- (sw * sty - st * sy) / D; m <- (sy - b * st) / sw
  s <- pmax(1, colSums(w * (z - rep(m, each = K) - rep(b, each = K) * t)^2) / (K - 2)); x <- t[K, ] + 2
  se <- sqrt(s * (1 / sw + (x - st / sw)^2 * sw / D) + .0025); h <- y0 + m + b * x; lo <- h - qnorm(.975) * se; hi <- h + qnorm(.975) * se
}, gcFirst = FALSE)[["elapsed"]]
cat(sprintf("%.9f %.9f\n", median(took), sum(b)))
