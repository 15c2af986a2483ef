using System.CommandLine;
using MicRegister.Documents.Curves;
using MicRegister.Documents.Exports;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Tracing;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;
using MicRegister.Server.Work;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Commands;

/// <summary>Traces an event to what it rests on, or a device to the events that it puts in doubt.</summary>
internal static class TraceCommand
{
    public static Command Make()
    {
        var (data, json) = (CommonOptions.Data(), CommonOptions.Json());
        var what = new Option<string?>("--event") { Description = "Id of an event, or its name: what applies to it." };
        var station = new Option<string?>("--station") { Description = "This station alone." };
        var device = new Option<string?>("--device") { Description = "Serial number or id of a device: what is in doubt through it." };
        var bands = new Option<bool>("--bands")
        { Description = "With --event: the correction of each third-octave band for response, windscreen and mount." };
        var angle = new Option<double?>("--angle")
        { Description = "With --bands: angle of incidence in degrees, 0 to 180, in place of the stated one." };
        var budget = new Option<bool>("--budget") { Description = "With --event: where each uncertainty comes from, by source." };
        var covariance = new Option<bool>("--covariance")
        { Description = "With --event: covariances between what applies to its stations, in dB²." };
        var part = new Option<string?>("--part")
        { Description = "With --covariance: sensitivity or mount-and-direction alone." };
        var unit = new Option<string?>("--unit")
        { Description = "With --covariance: volts, the usual one, or full-scale: what the sensitivities are relative to." };
        var csv = new Option<string?>("--csv")
        { Description = "With --event: writes the table there, and beside it FILE-metadata.json with what it means and where it is from." };
        var around = new Option<string?>("--rests-on")
        { Description = "KIND:ID of a device, certificate, check, placement or event: what it rests on, and what rests on it." };
        var command = new Command(
            "trace", "Trace an event to the devices and calibrations behind it, or a device to the events that it puts in doubt.")
        { data, what, station, bands, angle, budget, covariance, part, unit, csv, device, around, json };
        command.SetAction((parsed, _) => CommandExit.Run(() => Task.FromResult(Run(
            CommonOptions.Folder(parsed.GetValue(data)), new(
                parsed.GetValue(what), parsed.GetValue(station), parsed.GetValue(bands), parsed.GetValue(angle), parsed.GetValue(budget),
                parsed.GetValue(covariance), parsed.GetValue(part), parsed.GetValue(unit), parsed.GetValue(csv),
                parsed.GetValue(device), parsed.GetValue(around), parsed.GetValue(json))))));
        return command;
    }

    private sealed record Wanted(
        string? Event, string? Station, bool Bands, double? Angle, bool Budget, bool Covariance, string? Part, string? Unit,
        string? Csv, string? Device, string? Around, bool Json);

    private static int Run(string folder, Wanted w)
    {
        foreach (var (given, option) in new[]
        {
            (w.Bands, "--bands"), (w.Budget, "--budget"), (w.Covariance, "--covariance"), (w.Csv is not null, "--csv"),
        })
        {
            if (given && w.Event is null) throw new BadUseException($"{option} needs --event ID.");
        }
        if (new[] { w.Bands, w.Budget, w.Covariance }.Count(o => o) > 1)
            throw new BadUseException("Give one of --bands, --budget and --covariance.");
        if (w.Angle is not null && !w.Bands) throw new BadUseException("--angle needs --bands.");
        if (w.Angle is { } a && !(a is >= 0 and <= 180))
            throw new BadUseException(FormattableString.Invariant($"--angle {a}: allowed is a number from 0 to 180 degrees."));
        if (w.Part is not null && !w.Covariance) throw new BadUseException("--part needs --covariance.");
        if (w.Part is not null && !Word<UncertaintyPart>.TryParse(w.Part, out _))
        {
            throw new BadUseException(
                $"--part {w.Part}: allowed are {string.Join(" and ", WordsOfEnumerations.Of(typeof(UncertaintyPart)))}.");
        }
        if (w.Unit is not null && !w.Covariance) throw new BadUseException("--unit needs --covariance.");
        if (w.Unit is not null && !Word<SensitivityUnit>.TryParse(w.Unit, out _))
        {
            throw new BadUseException(
                $"--unit {w.Unit}: allowed are {string.Join(" and ", WordsOfEnumerations.Of(typeof(SensitivityUnit)))}.");
        }
        if (new[] { w.Event, w.Device, w.Around }.Count(o => o is not null) != 1)
            throw new BadUseException("Give one of --event ID, --device SERIAL and --rests-on KIND:ID.");
        using var store = CommandStore.Read(folder);
        var register = CommandStore.Judged(store);
        if (w.Around is not null) return Around(register, w.Around, w.Json);
        if (w.Device is not null) return Backwards(register, w.Device, w.Json);
        if (w.Csv is not null || w.Budget || w.Covariance) return Tabled(store, register, w);
        return w.Bands
            ? Bands(store, register, w.Event!, w.Station, w.Angle, w.Json)
            : Forwards(register, w.Event!, w.Station, w.Json);
    }

    // The tables that the API gives, made by the same hands.
    private static int Tabled(ReadOnlyStore store, Register.Register register, Wanted w)
    {
        // Covariances are of all stations; one alone has none.
        if (w is { Covariance: true, Station: not null }) throw new BadUseException("--covariance is of all stations: leave --station out.");
        var table = Table(store, register, w, Found(register, w.Event!, w.Station));
        if (w.Csv is { } path)
        {
            Write(path, to => CsvExport.Write(table, to));
            Write(path + CsvMetadata.Suffix, to => CsvMetadata.Write(table, Uri.EscapeDataString(Path.GetFileName(path)), to));
            if (!w.Json) Console.WriteLine($"Written {path} and {path}{CsvMetadata.Suffix}.");
        }
        if (w.Json)
        {
            using var to = new MemoryStream();
            JsonExport.Write(table, to);
            Console.Write(System.Text.Encoding.UTF8.GetString(to.ToArray()));
        }
        else if (w.Csv is null)
        {
            Console.WriteLine(string.Join('\t', table.Columns.Select(c => c.Key)));
            foreach (var row in table.Rows)
            {
                Console.WriteLine(string.Join('\t', row.Select(c => c.Number is { } n
                    ? n.ToString("G6", System.Globalization.CultureInfo.InvariantCulture)
                    : c.Text)));
            }
            foreach (var note in table.Notes) Console.WriteLine(note);
        }
        return CommandExit.Good;
    }

    private static ExportTable Table(ReadOnlyStore store, Register.Register register, Wanted w, EventTrace trace)
    {
        var campaign = register.Campaign(trace.Event.Campaign);
        var (title, provenance) = (campaign?.Name ?? trace.Event.Campaign, Provenance.Of(store.Head, register));
        if (w.Budget) return BudgetTable.Of(title, [trace], provenance);
        if (w.Covariance)
        {
            UncertaintyPart? part = Word<UncertaintyPart>.TryParse(w.Part, out var word) ? word.Value : null;
            var unit = Word<SensitivityUnit>.TryParse(w.Unit, out var relativeTo) ? relativeTo.Value : SensitivityUnit.Volts;
            return CovarianceTable.Of(title, EventCovariance.Of(trace, unit), part, provenance);
        }
        return w.Bands
            ? BandTable.Of(
                title, campaign?.Plan, [trace], sha => CurveFile.ReadByAngle(store.OpenAttachment, sha), w.Angle is { } a ? [a] : [],
                provenance)
            : AnalysisTable.Of(title, [trace], provenance);
    }

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

    private static EventTrace Found(Register.Register register, string what, string? station)
    {
        var ids = EventBook.Find(register, what) is not null
            ? [what]
            : register.CampaignIds.SelectMany(c => EventBook.OfCampaign(register, c))
                .Where(e => string.Equals(e.Name, what, StringComparison.OrdinalIgnoreCase)).Select(e => e.Id).ToList();
        if (ids.Count != 1)
            throw new BadUseException(ids.Count == 0
                ? $"--event {what}: there is no such event."
                : $"--event {what}: {string.Join(", ", ids)} have that name; give an id.");
        var trace = Tracer.Of(register, ids[0], station)!;
        return trace.Stations.Count == 0 ? throw new BadUseException($"--station {station}: there is no such station.") : trace;
    }

    private static int Bands(
        ReadOnlyStore store, Register.Register register, string what, string? station, double? angle, bool asJson)
    {
        var trace = Found(register, what, station);
        var plan = register.Campaign(trace.Event.Campaign)?.Plan;
        var corrections = trace.Stations.Select(s => (
            Station: s,
            Corrections: BandCorrections.Of(s, plan, sha => CurveFile.ReadByAngle(store.OpenAttachment, sha), angle))).ToList();
        if (asJson)
        {
            Console.WriteLine(ApiJson.Text(corrections.Select(c => BandsView.Of(c.Station, c.Corrections))));
            return CommandExit.Good;
        }
        foreach (var (s, c) in corrections)
        {
            var head = c is null ? "no sensitivity is known"
                : $"{BandsView.Angle(c)}, responses relative to {FormattableString.Invariant($"{c.ReferenceHz:0.##}")} Hz";
            Console.WriteLine($"{s.Station}: {head}");
            foreach (var caution in c?.Cautions ?? []) Console.WriteLine("  " + caution);
            foreach (var b in c?.Bands ?? [])
            {
                var sum = b.TotalDb is { } total
                    ? $"{QuantityText.Signed(total, 3),8} dB, U = {QuantityText.Expanded(b.ExpandedDb, "dB")} dB{InFullScale(b)}"
                    : "    open";
                var terms = string.Concat(b.Terms.Select(t => $"; {t.Name} {QuantityText.Signed(t.ValueDb, 3)}"));
                Console.WriteLine(
                    FormattableString.Invariant($"  {b.Band.NominalHz,8:0.##} Hz  {sum}")
                    + (b.IsWithinMount ? "" : ", beyond the mount's band") + terms);
            }
        }
        return CommandExit.Good;
    }

    private static string InFullScale(BandCorrection b) =>
        b.InFullScale is { } known ? $" in V/Pa, {QuantityText.Expanded(known.ExpandedDb, "dB")} dB in FS/Pa" : "";

    private static int Forwards(Register.Register register, string what, string? station, bool asJson)
    {
        var trace = Found(register, what, station);
        if (asJson)
        {
            Console.WriteLine(ApiJson.Text(TraceView.Of(trace)));
            return CommandExit.Good;
        }
        var start = DateTimeOffset.FromUnixTimeMilliseconds(trace.Event.StartMs);
        var stop = DateTimeOffset.FromUnixTimeMilliseconds(trace.Event.StopMs);
        Console.WriteLine($"{trace.Event.Name}, {start:yyyy-MM-dd HH:mm:ss} to {stop:HH:mm:ss} UTC");
        Console.WriteLine(trace.Recorded);
        foreach (var s in trace.Stations)
        {
            Console.WriteLine($"{s.Station}: {s.Verdict.InWords}. {TraceWords.Sentence(s)}");
            foreach (var link in s.Links) Console.WriteLine($"{new string(' ', 2 + (2 * link.Depth))}{TraceWords.Of(link)}");
            foreach (var k in s.InPlace) Console.WriteLine("  " + TraceWords.Of(k));
            foreach (var reason in s.Reasons) Console.WriteLine($"  {reason.Weight.InWords}: {reason.Text} [{reason.Source}]");
        }
        return CommandExit.Good;
    }

    private static int Around(Register.Register register, string around, bool asJson)
    {
        var (kind, id) = around.Split(':', 2) is [var k, var i] ? (k, i)
            : throw new BadUseException($"--rests-on {around}: allowed is KIND:ID, such as device:7K3M9Q2X5B8N4C6V.");
        var graph = TraceGraph.Around(register, kind, id)
            ?? throw new BadUseException($"--rests-on {around}: there is no such thing.");
        if (asJson)
        {
            Console.WriteLine(ApiJson.Text(graph));
            return CommandExit.Good;
        }
        Console.WriteLine($"{graph.Here.Label}{(graph.Here.Detail.Length > 0 ? ", " + graph.Here.Detail : "")}");
        foreach (var n in graph.RestsOn)
            Console.WriteLine($"  rests on {n.Kind} {n.Id}: {n.Label}{(n.Detail.Length > 0 ? ", " + n.Detail : "")}");
        foreach (var n in graph.Bears)
            Console.WriteLine($"  bears {n.Kind} {n.Id}: {n.Label}{(n.Detail.Length > 0 ? ", " + n.Detail : "")}");
        if (graph.Left > 0) Console.WriteLine($"  bears {graph.Left} more");
        return CommandExit.Good;
    }

    private static int Backwards(Register.Register register, string device, bool asJson)
    {
        var found = register.Device(device) is { } byId
            ? [byId]
            : register.DeviceIds.Select(d => register.Device(d)!)
                .Where(d => DeviceIdentity.Normal(d.Serial) == DeviceIdentity.Normal(device)).ToList();
        if (found.Count != 1)
        {
            var several = string.Join(", ", found.Select(d => $"{d.Name} ({d.Id})"));
            throw new BadUseException(found.Count == 0
                ? $"--device {device}: there is no such device."
                : $"--device {device}: {several} have that serial number; give an id.");
        }
        List<DoubtReport> reports = [.. DoubtBook.OfDevice(register, found[0].Id).Select(d => DoubtReport.Of(register, d))];
        if (asJson)
        {
            Console.WriteLine(ApiJson.Text(reports.Select(DoubtReportView.Of)));
            return CommandExit.Good;
        }
        if (reports.Count == 0) Console.WriteLine($"Nothing is in doubt through {found[0].Name}.");
        foreach (var r in reports)
        {
            Console.WriteLine(r.Doubt.Text);
            foreach (var t in r.Touched)
            {
                var start = DateTimeOffset.FromUnixTimeMilliseconds(t.Event.StartMs);
                var settled = t.Settled is { } word ? (word.What.IsConfirmed ? ", confirmed: " : ", cleared: ") + word.What.Reason : "";
                Console.WriteLine(
                    $"  {t.Event.Name} of {t.Event.Campaign}, {start:yyyy-MM-dd HH:mm} UTC: "
                    + string.Join(", ", t.Stations.Select(s => s.Station)) + (t.IsRescued ? ", rescued by a check" : "") + settled);
            }
            foreach (var act in r.ToDo) Console.WriteLine("  " + act);
        }
        return CommandExit.Good;
    }
}
