using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Options that several commands have.</summary>
internal static class CommonOptions
{
    public static Option<string?> Data() => new("--data")
    { Description = "Folder of the register (otherwise MICREGISTER_DATA, otherwise ./register-data)." };

    public static Option<bool> Json() => new("--json") { Description = "Answer as JSON, for programs." };

    public static Option<string?> Today() => new("--today")
    { Description = "Judge as of this day, for example 2026-05-04 (otherwise the clock's)." };

    public static Option<string> By() => new("--by")
    { Description = "Name of the person who answers for it.", DefaultValueFactory = _ => "Technician" };

    public static Option<string?> Dates() => new("--dates") { Description = "What 03/04/2026 means: day-first or month-first." };

    /// <summary>Has numbers of a command and all under it read with a decimal point: a comma would group thousands, and 1,2 be 12.</summary>
    public static void ReadNumbers(Command command)
    {
        foreach (var option in command.Options)
        {
            if (option is Option<double?> perhaps) perhaps.CustomParser = r => Number(r, option.Name);
            else if (option is Option<double> number) number.CustomParser = r => Number(r, option.Name) ?? 0;
        }
        foreach (var under in command.Subcommands) ReadNumbers(under);
    }

    public static string Folder(string? data) => data ?? Environment.GetEnvironmentVariable("MICREGISTER_DATA") ?? "register-data";

    public static DateOnly Day(string? text, TimeProvider time, string option = "--today") => text is null
        ? DateOnly.FromDateTime(time.GetUtcNow().UtcDateTime)
        : DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : throw new BadUseException($"{option} {text} is no day; write it as 2026-05-04.");

    private static double? Number(ArgumentResult result, string name)
    {
        var text = result.Tokens.Count > 0 ? result.Tokens[^1].Value : "";
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)) return number;
        result.AddError($"{name} '{text}': allowed is a number with a decimal point, such as 0.5.");
        return null;
    }

    public static DateOrder? Order(string? text) => text is null
        ? null
        : ImportMapping.Order(text) ?? throw new BadUseException($"--dates {text} is not known; allowed are day-first and month-first.");
}
