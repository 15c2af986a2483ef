using System.CommandLine;
using MicRegister.Documents.Exports;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Mounting;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;
using MicRegister.Server.Work;

namespace MicRegister.Server.Commands;

/// <summary>Which mount suits a source and a band; needs a register only where a campaign is named.</summary>
internal static class MountsCommand
{
    public static Command Make()
    {
        var (data, json) = (CommonOptions.Data(), CommonOptions.Json());
        var campaign = new Option<string?>("--campaign") { Description = "Id of a campaign: its own mounts, heights, band and profile." };
        var mount = new Option<string?>("--mount") { Description = $"One of {Words<Mount>()}; otherwise all of them." };
        var source = new Option<string?>("--source") { Description = $"What flies: one of {Words<SourceClass>()}." };
        var csv = new Option<string?>("--csv")
        { Description = "Writes the table of bands there, and beside it FILE-metadata.json with what it means." };
        Dictionary<string, Option<double?>> numbers = new(StringComparer.Ordinal)
        {
            ["--height-m"] = new("--height-m") { Description = "Height of the diaphragm in m, with --mount." },
            ["--from-hz"] = new("--from-hz") { Description = "Lower end of the band that matters." },
            ["--to-hz"] = new("--to-hz") { Description = "Its upper end." },
            ["--tolerance-db"] = new("--tolerance-db") { Description = "Allowed deviation from what a mount is meant to have." },
            ["--elevation-deg"] = new("--elevation-deg") { Description = "Elevation of the source over the horizon; 90 is overhead." },
            ["--temperature-c"] = new("--temperature-c") { Description = "Temperature of the air." },
            ["--cold-c"] = new("--cold-c") { Description = "Lowest temperature that is looked at beside it." },
            ["--warm-c"] = new("--warm-c") { Description = "Highest." },
            ["--reflection"] = new("--reflection") { Description = "What the ground returns of the sound pressure, 0 to 1." },
            ["--height-off-mm"] = new("--height-off-mm") { Description = "How far heights may be off." },
        };
        var command = new Command("mounts", "Which mount suits a source and a band, by a model of the ground and by practice?")
        { data, campaign, mount, source, csv, json };
        foreach (var option in numbers.Values) command.Add(option);
        command.SetAction((parsed, _) => CommandExit.Run(() =>
        {
            double? Of(string name) => parsed.GetValue(numbers[name]);
            var ask = new MountAsk
            {
                Campaign = parsed.GetValue(campaign),
                Mount = Word<Mount>("--mount", parsed.GetValue(mount)),
                Source = Word<SourceClass>("--source", parsed.GetValue(source)),
                HeightM = Of("--height-m"),
                FromHz = Of("--from-hz"),
                ToHz = Of("--to-hz"),
                ToleranceDb = Of("--tolerance-db"),
                ElevationDeg = Of("--elevation-deg"),
                TemperatureC = Of("--temperature-c"),
                ColdC = Of("--cold-c"),
                WarmC = Of("--warm-c"),
                Reflection = Of("--reflection"),
                HeightOffMm = Of("--height-off-mm"),
            };
            return Task.FromResult(Run(
                ask, CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(csv), parsed.GetValue(json)));
        }));
        return command;
    }

    private static int Run(MountAsk ask, string folder, string? csv, bool asJson)
    {
        using var store = ask.Campaign is null ? null : CommandStore.Read(folder);
        var sheet = ask.Of(store?.Register)
            ?? throw new BadUseException($"--campaign {ask.Campaign}: allowed are {string.Join(", ", store!.Register.CampaignIds)}.");
        if (sheet.Faults.Count > 0) throw new BadUseException(string.Join(' ', sheet.Faults.Select(f => f.Text)));
        if (csv is not null)
        {
            var table = sheet.Table(store is null ? [("software", Provenance.Software)] : Provenance.Of(store.Head, store.Register));
            Write(csv, to => CsvExport.Write(table, to));
            Write(csv + CsvMetadata.Suffix, to => CsvMetadata.Write(table, Uri.EscapeDataString(Path.GetFileName(csv)), to));
            if (!asJson) Console.WriteLine($"Written {csv} and {csv}{CsvMetadata.Suffix}.");
        }
        if (asJson) Console.WriteLine(ApiJson.Text(MountsView.Of(sheet)));
        else Tell(sheet);
        return CommandExit.Good;
    }

    private static void Tell(MountSheet sheet)
    {
        if (sheet.Rows.Count == 0) Console.WriteLine("No station stands so.");
        foreach (var row in sheet.Rows)
        {
            var q = row.Group.Question;
            var stations = row.Group.Stations.Count == 0 ? "" : $" ({string.Join(", ", row.Group.Stations)})";
            if (row.Answer is not { } a)
            {
                Console.WriteLine($"{row.Name}{stations}: {string.Join(' ', q.Faults().Select(f => f.Text))}");
                continue;
            }
            Console.WriteLine($"{row.Name}{stations}: {QuantityText.Change(a.RaisesDb, "dB", 2)} re free field for {q.Source.InWords}, "
                + FormattableString.Invariant($"{q.FromHz:0.#} Hz to {q.ToHz:0.#} Hz, {q.ElevationDeg:0.#}° over the horizon: ")
                + $"{MountAgainstPractice.InWords(a.Agreement)}. {a.Why}");
        }
        foreach (var sentence in sheet.Campaign?.ProfileSays ?? []) Console.WriteLine("Profile: " + sentence);
        foreach (var sentence in MountCaveats.All) Console.WriteLine(sentence);
    }

    private static string Words<T>()
        where T : struct, Enum => string.Join(", ", WordsOfEnumerations.Of(typeof(T)));

    private static T? Word<T>(string option, string? text)
        where T : struct, Enum => text is null
            ? null
            : Work.Word<T>.TryParse(text, out var word)
                ? word.Value
                : throw new BadUseException($"{option} {text}: allowed are {Words<T>()}.");

    private static void Write(string path, Action<Stream> write)
    {
        try
        {
            using var to = File.Create(path);
            write(to);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new BadUseException($"--csv {path}: {e.Message}");
        }
    }
}
