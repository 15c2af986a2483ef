using System.CommandLine;
using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.ResponseLimits;
using MicRegister.Register.Devices;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Holds a device's stored response curves against printed limits.</summary>
internal static class ResponseCommand
{
    public static Command Make()
    {
        var (data, json) = (CommonOptions.Data(), CommonOptions.Json());
        var device = new Option<string>("--device") { Description = "Serial number or id of a device.", Required = true };
        var limits = new Option<string?>("--limits")
        {
            Description = $"Limits to hold it against: {string.Join(", ", ResponseTable.Keys)} "
                + "(otherwise those that the device states, otherwise the first).",
        };
        var command = new Command(
            "response",
            "Hold the newest stored response of a device against the limits of a class and edition, band by band, and its curves by angle "
                + "against limits by angle.")
        { data, device, limits, json };
        command.SetAction((parsed, _) => CommandExit.Run(() => Task.FromResult(Run(
            CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(device)!, parsed.GetValue(limits), parsed.GetValue(json)))));
        return command;
    }

    private static int Run(string folder, string wanted, string? limits, bool asJson)
    {
        if (limits is not null && ResponseTable.Find(limits) is null)
            throw new BadUseException($"--limits {limits}: allowed are {string.Join(", ", ResponseTable.Keys)}.");
        using var store = CommandStore.Read(folder);
        var register = CommandStore.Judged(store);
        var found = register.Device(wanted) is { } byId
            ? [byId]
            : register.DeviceIds.Select(d => register.Device(d)!)
                .Where(d => DeviceIdentity.Normal(d.Serial) == DeviceIdentity.Normal(wanted)).ToList();
        if (found.Count != 1)
        {
            throw new BadUseException(found.Count == 0
                ? $"--device {wanted}: there is no such device."
                : $"--device {wanted}: {string.Join(", ", found.Select(d => $"{d.Name} ({d.Id})"))} have that serial number; give an id.");
        }
        var view = CurvesApi.Judged(found[0], register.Source.Curves, limits);
        if (asJson) Console.WriteLine(ApiJson.Text(view));
        else
        {
            Console.WriteLine(found[0].Name);
            foreach (var judged in new[] { view.OverFrequency, view.ByAngle }) Write(judged);
        }
        return view.OverFrequency.Verdict == BandVerdict.Exceeded || view.ByAngle.Verdict == BandVerdict.Exceeded
            ? CommandExit.NotReady
            : CommandExit.Good;
    }

    private static void Write(ResponseView v)
    {
        Console.WriteLine($"{v.Limits} ({v.Source}; {v.Mark}): {v.Open ?? ResponseWords.Of(v.Verdict)}");
        foreach (var remark in v.Remarks.Prepend(v.About).Where(r => r.Length > 0)) Console.WriteLine("  " + remark);
        foreach (var b in v.Bands)
        {
            var angle = b.AngleDeg is { } deg ? FormattableString.Invariant($" {deg,5:0.##}°") : "";
            Console.WriteLine(
                FormattableString.Invariant($"  {b.NominalHz,8:0.##} Hz{angle}  {QuantityText.Signed(b.DeviationDb, 2),7} dB  ")
                + $"{ResponseWords.Limits(b),-18}  {ResponseWords.Of(b)}");
        }
    }
}
