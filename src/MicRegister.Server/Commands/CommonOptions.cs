using System.CommandLine;
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

    public static string Folder(string? data) => data ?? Environment.GetEnvironmentVariable("MICREGISTER_DATA") ?? "register-data";

    public static DateOnly Day(string? text, TimeProvider time, string option = "--today") => text is null
        ? DateOnly.FromDateTime(time.GetUtcNow().UtcDateTime)
        : DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : throw new BadUseException($"{option} {text} is no day; write it as 2026-05-04.");

    public static DateOrder? Order(string? text) => text is null
        ? null
        : ImportMapping.Order(text) ?? throw new BadUseException($"--dates {text} is not known; allowed are day-first and month-first.");
}
