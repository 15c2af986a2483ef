using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Tests.Import;

/// <summary>A result that is stated again agrees to half a unit of the last digit that was written, turned into dB where need be.</summary>
public sealed class ResolutionTests
{
    // 12.5 mV/Pa is -38.0618 dB. Half a unit is 0.05 mV/Pa, which is 8.686 · 0.05 / 12.5 = 0.0347 dB (20 / ln 10 = 8.6859): -38.09 dB is
    // the same figure, -38.10 dB is another. Written as 12.500 mV/Pa half a unit is 0.0003 dB and the 0.005 dB of every level hold.
    [Theory]
    [InlineData("-38.09 dB", "12.5 mV/Pa", true)]
    [InlineData("-38.03 dB", "12.5 mV/Pa", true)]
    [InlineData("-38.10 dB", "12.5 mV/Pa", false)]
    [InlineData("-38.02 dB", "12.5 mV/Pa", false)]
    [InlineData("-38.09 dB", "12.500 mV/Pa", false)]
    [InlineData("-38.065 dB", "12.500 mV/Pa", true)]
    [InlineData("-38.41 dB", "12 mV/Pa", true)] // -38.4164 dB, half a unit 0.362 dB
    [InlineData("-38.06 dB", "12 mV/Pa", true)] // 0.356 dB off
    [InlineData("-38.05 dB", "12 mV/Pa", false)] // 0.366 dB off
    [InlineData("-38.09 dB", "-38.1 dB", true)] // half a unit is 0.05 dB
    [InlineData("-38.04 dB", "-38.1 dB", false)]
    public void A_rounded_repetition_is_the_same_and_anything_further_off_is_questioned(string known, string repeated, bool isSame)
    {
        var first = Run($"Kind,Serial,Date,Sensitivity\nmic,301,2025-01-02,{known}\n", FactList.RegisterOf([]));
        var register = FactList.RegisterOf(first.Facts);

        var (sort, facts) = Run($"Kind,Serial,Date,Sensitivity\nmic,301,2025-01-02,{repeated}\n", register);

        Assert.Equal(isSame ? RowSort.AlreadyThere : RowSort.Questioned, sort);
        Assert.Empty(facts);
    }

    // A pistonphone's level in dB and a barometer's pressure in kPa are held in their own unit: no factor there.
    [Theory]
    [InlineData("barometer,B1,2025-01-02,101.34 kPa", "barometer,B1,2025-01-02,101.3 kPa", true)]
    [InlineData("barometer,B1,2025-01-02,101.36 kPa", "barometer,B1,2025-01-02,101.3 kPa", false)]
    public void A_pressure_is_held_in_its_own_unit(string known, string repeated, bool isSame)
    {
        var register = FactList.RegisterOf(Run($"Kind,Serial,Date,Result\n{known}\n", FactList.RegisterOf([])).Facts);

        Assert.Equal(isSame ? RowSort.AlreadyThere : RowSort.Questioned, Run($"Kind,Serial,Date,Result\n{repeated}\n", register).Sort);
    }

    private static (RowSort Sort, IReadOnlyList<Fact> Facts) Run(string text, Register.Register onto)
    {
        var session = new ImportSession(onto, new(2026, 6, 1));
        var report = session.Take(new MemoryStream(Encoding.UTF8.GetBytes(text)), "f.csv", ImportMapping.None);
        return (Assert.Single(report.Outcomes).Sort, session.Facts);
    }
}
