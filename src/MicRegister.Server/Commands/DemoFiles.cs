using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Files of the demo that are taken over in one go.</summary>
/// <param name="Day">The day on which they were written.</param>
/// <param name="Files">The files, in order.</param>
internal sealed record DemoFiles(DateOnly Day, IReadOnlyList<string> Files)
{
    private const string Plan = "plan";
    private const string Field = "field";

    /// <summary>The day where none is asked for.</summary>
    public const string Usual = Plan;

    private static string Inventory => Path.Combine(AppContext.BaseDirectory, "demo-inventory");

    /// <summary>What people said of doubts: no table holds that.</summary>
    public static string Doubts => Path.Combine(Inventory, "flown", "doubts.json");

    /// <summary>Those of a day: the fleet with the flown campaign, and where it is asked for the first morning of the next one.</summary>
    /// <param name="day">One of two words.</param>
    public static IReadOnlyList<DemoFiles> Of(string day)
    {
        var written = new DemoFiles(DayOf(Inventory), [.. In(Inventory), .. In(Path.Combine(Inventory, "flown"))]);
        var morning = Path.Combine(Inventory, "field-day");
        return day switch
        {
            Plan => [written],
            Field => [written, new(DayOf(morning), [.. In(morning)])],
            _ => throw new BadUseException($"--day {day}: allowed are {Plan} and {Field}."),
        };
    }

    private static IEnumerable<string> In(string folder) => Directory.GetFiles(folder)
        .Where(f => Path.GetExtension(f) is ".csv" or ".xlsx").Order(StringComparer.Ordinal);

    private static DateOnly DayOf(string folder) =>
        CommonOptions.Day(File.ReadAllText(Path.Combine(folder, "today.txt")).Trim(), TimeProvider.System);
}
