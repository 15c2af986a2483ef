using System.CommandLine;
using System.Text.Json;
using System.Text.Json.Serialization;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Tracing;
using MicRegister.Server.Api;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Commands;

/// <summary>Traces an event to what it rests on, or a device to the events that it puts in doubt.</summary>
internal static class TraceCommand
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { WriteIndented = true, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) } };

    public static Command Make()
    {
        var (data, json) = (CommonOptions.Data(), CommonOptions.Json());
        var what = new Option<string?>("--event") { Description = "Id of an event, or its name: what applies to it." };
        var station = new Option<string?>("--station") { Description = "This station alone." };
        var device = new Option<string?>("--device") { Description = "Serial number or id of a device: what is in doubt through it." };
        var command = new Command("trace", "Trace an event to the devices and calibrations behind it, or a device to the events that it puts in doubt.") { data, what, station, device, json };
        command.SetAction((parsed, _) => CommandExit.Run(() => Task.FromResult(Run(CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(what), parsed.GetValue(station), parsed.GetValue(device), parsed.GetValue(json)))));
        return command;
    }

    private static int Run(string folder, string? what, string? station, string? device, bool asJson)
    {
        if (what is null == device is null) throw new BadUseException("Give --event ID, or --device SERIAL.");
        using var store = (Directory.Exists(folder) ? ReadOnlyStore.Open(new DiskFiles(folder)) : null) ?? throw new BadUseException($"The folder {folder} holds no register.");
        return what is not null ? Forwards(store.Register, what, station, asJson) : Backwards(store.Register, device!, asJson);
    }

    private static int Forwards(Register.Register register, string what, string? station, bool asJson)
    {
        var ids = EventBook.Find(register, what) is not null ? [what] : register.CampaignIds.SelectMany(c => EventBook.OfCampaign(register, c)).Where(e => string.Equals(e.Name, what, StringComparison.OrdinalIgnoreCase)).Select(e => e.Id).ToList();
        if (ids.Count != 1) throw new BadUseException(ids.Count == 0 ? $"--event {what}: there is no such event." : $"--event {what}: {string.Join(", ", ids)} have that name; give an id.");
        var trace = Tracer.Of(register, ids[0], station)!;
        if (trace.Stations.Count == 0) throw new BadUseException($"--station {station}: there is no such station.");
        if (asJson)
        {
            Console.WriteLine(JsonSerializer.Serialize(TraceView.Of(trace), Json));
            return CommandExit.Good;
        }
        Console.WriteLine($"{trace.Event.Name}, {DateTimeOffset.FromUnixTimeMilliseconds(trace.Event.StartMs):yyyy-MM-dd HH:mm:ss} to {DateTimeOffset.FromUnixTimeMilliseconds(trace.Event.StopMs):HH:mm:ss} UTC");
        foreach (var s in trace.Stations)
        {
            Console.WriteLine($"{s.Station}: {TraceWords.Of(s.Verdict)}. {TraceWords.Sentence(s)}");
            foreach (var link in s.Links) Console.WriteLine($"{new string(' ', 2 + (2 * link.Depth))}{TraceWords.Of(link)}");
            foreach (var reason in s.Reasons) Console.WriteLine($"  {TraceWords.Of(reason.Weight)}: {reason.Text} [{reason.Source}]");
        }
        return CommandExit.Good;
    }

    private static int Backwards(Register.Register register, string device, bool asJson)
    {
        var found = register.Device(device) is { } byId ? [byId] : register.DeviceIds.Select(d => register.Device(d)!).Where(d => DeviceIdentity.Normal(d.Serial) == DeviceIdentity.Normal(device)).ToList();
        if (found.Count != 1) throw new BadUseException(found.Count == 0 ? $"--device {device}: there is no such device." : $"--device {device}: {string.Join(", ", found.Select(d => $"{d.Name} ({d.Id})"))} have that serial number; give an id.");
        List<DoubtReport> reports = [.. DoubtBook.OfDevice(register, found[0].Id).Select(d => DoubtReport.Of(register, d))];
        if (asJson)
        {
            Console.WriteLine(JsonSerializer.Serialize(reports.Select(DoubtReportView.Of), Json));
            return CommandExit.Good;
        }
        if (reports.Count == 0) Console.WriteLine($"Nothing is in doubt through {found[0].Name}.");
        foreach (var r in reports)
        {
            Console.WriteLine(r.Doubt.Text);
            foreach (var t in r.Touched) Console.WriteLine($"  {t.Event.Name} of {t.Event.Campaign}, {DateTimeOffset.FromUnixTimeMilliseconds(t.Event.StartMs):yyyy-MM-dd HH:mm} UTC: {string.Join(", ", t.Stations.Select(s => s.Station))}{(t.IsRescued ? ", rescued by a check" : "")}{(t.Settled is { } settled ? (settled.IsConfirmed ? ", confirmed: " : ", cleared: ") + settled.Reason : "")}");
            foreach (var act in r.ToDo) Console.WriteLine("  " + act);
        }
        return CommandExit.Good;
    }
}
