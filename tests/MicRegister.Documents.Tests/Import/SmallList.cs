using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Tests.Import;

/// <summary>A list of a few lines, taken into a register without facts on the first of June 2026.</summary>
internal static class SmallList
{
    /// <summary>Keys of what is asked, each part of a question by itself.</summary>
    public static List<string> Parts(FileReport report) =>
        [.. report.Questions.SelectMany(q => q.Parts.Count > 0 ? q.Parts : [q]).Select(q => q.Key)];

    /// <summary>The register that a list makes, of which all is understood.</summary>
    public static Register.Register Good(string text, string legend = "")
    {
        var (report, register) = Read(text, legend);
        Assert.True(report.IsGood, Told(report));
        return register;
    }

    /// <summary>What became of a list, and the register that it makes.</summary>
    public static (FileReport Report, Register.Register Register) Read(string text, string legend = "")
    {
        var session = new ImportSession(Register.Register.Empty(new FactList()), new DateOnly(2026, 6, 1));
        var report = session.Take(new MemoryStream(Encoding.UTF8.GetBytes(text)), "f.csv",
            ImportMapping.Read(new StringReader(legend), "legend"));
        return (report, FactList.RegisterOf([.. session.Facts]));
    }

    /// <summary>The one device of a serial number.</summary>
    public static DeviceState Device(Register.Register register, string serial) =>
        register.DeviceIds.Select(id => register.Device(id)!).Single(d => d.Serial == serial);

    /// <summary>All that a report says, for whoever has to see why it is not as it should be.</summary>
    public static string Told(FileReport report) => string.Join('\n', report.Questions.Select(q => q.Text).Concat(report.Problems)
        .Concat(report.Outcomes.Select(o => $"{o.Row} {o.Sort} {o.Text}")).Concat(report.Notices));
}
