namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Draws that are the same for one seed on every machine: SplitMix64 (Steele, Lea and Flood 2014).</summary>
internal sealed class Dice(ulong seed)
{
    private ulong _state = seed;

    /// <summary>A number from 0 to below a bound.</summary>
    public int Below(int bound) => (int)(Next() % (ulong)bound);

    /// <summary>A number from one bound to another, both inclusive.</summary>
    public int From(int least, int most) => least + Below(most - least + 1);

    /// <summary>A number between two bounds, rounded to decimals.</summary>
    public double Between(double least, double most, int decimals) =>
        Math.Round(least + (most - least) * (Next() >> 11) / (1UL << 53), decimals);

    public T One<T>(IReadOnlyList<T> of) => of[Below(of.Count)];

    public bool Once(int of) => Below(of) == 0;

    private ulong Next()
    {
        var z = _state += 0x9E3779B97F4A7C15;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
