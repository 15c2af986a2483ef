namespace MicRegister.Honesty;

/// <summary>Holds figures against those that were found before by an independent simulation, and against what is asked.</summary>
internal sealed class Judge
{
    /// <summary>Share of figures that may be off by more than three standard errors of the difference.</summary>
    private const double MayBeOff = 0.01;

    private readonly List<string> _off = [];
    private readonly List<double> _bands = [];
    private int _compared;

    /// <summary>A figure beside the earlier one.</summary>
    /// <param name="what">What it is.</param>
    /// <param name="here">The figure in per cent.</param>
    /// <param name="error">Its standard error in per cent.</param>
    /// <param name="before">The earlier figure in per cent, rounded to a whole one.</param>
    /// <param name="errorBefore">The earlier one's standard error in per cent, without the rounding.</param>
    public void Compare(string what, double here, double error, double before, double errorBefore)
    {
        _compared++;
        const double Rounding = 0.29; // of a whole per cent: 1 / sqrt 12
        var difference = Math.Sqrt((error * error) + (errorBefore * errorBefore) + (Rounding * Rounding));
        if (Math.Abs(here - before) > 3 * difference) _off.Add(FormattableString.Invariant($"{what}: {here:0.0} % here, {before:0} % before, standard error of the difference {difference:0.00}"));
    }

    /// <summary>Coverage of a 95 % band.</summary>
    public void Band(double percent) => _bands.Add(percent);

    /// <summary>Says whether all that is asked holds.</summary>
    public int Verdict()
    {
        Console.WriteLine();
        foreach (var off in _off) Console.WriteLine("off: " + off);
        var isGood = _off.Count <= MayBeOff * _compared;
        Console.WriteLine(FormattableString.Invariant($"{_off.Count} of {_compared} figures off by more than 3 standard errors of the difference; at most 1 % may be: {Word(isGood)}"));
        if (_bands.Count > 0)
        {
            var (least, mean) = (_bands.Min(), _bands.Average());
            isGood &= least >= 91 && mean >= 95;
            Console.WriteLine(FormattableString.Invariant($"{_bands.Count} coverages of 95 % bands: lowest {least:0.0} %, at least 91 asked: {Word(least >= 91)}; mean {mean:0.0} %, at least 95 asked: {Word(mean >= 95)}"));
        }
        return isGood ? 0 : 1;
    }

    private static string Word(bool good) => good ? "good" : "MISSED";
}
