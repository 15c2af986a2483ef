using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests;

/// <summary>Facts in the order of their sequences; how often they are read is counted.</summary>
internal sealed class CountedReads(IEnumerable<Fact> facts) : IFactSource
{
    public List<Fact> Facts { get; } = [.. facts];

    public int Reads { get; set; }

    public Fact Read(int sequence)
    {
        Reads++;
        return Facts[sequence - 1];
    }
}
