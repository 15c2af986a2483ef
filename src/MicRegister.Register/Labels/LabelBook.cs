using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Labels;

/// <summary>What a label is on.</summary>
/// <param name="Fact">Id of the fact.</param>
/// <param name="Device">Id of the device; null where it is a station's.</param>
/// <param name="Campaign">Id of the campaign; null where it is a device's.</param>
/// <param name="Station">Name of the station.</param>
public sealed record LabelBinding(FactId Fact, string? Device, string? Campaign, string? Station);

/// <summary>Labels: what they are on, and who puts them there.</summary>
public static class LabelBook
{
    /// <summary>The one timeline of all bindings: it grows with each.</summary>
    internal const string AllBindings = "labels:all";

    /// <summary>What a code is on: one binding, none for a label that is still blank, or several that contradict each other.</summary>
    public static IReadOnlyList<LabelBinding> Of(Register register, LabelCode code) =>
        [.. register.Facts(Subject.Label(code.Text))
            .Where(register.Counts).Select(register.Source.Read).Where(f => f.Body is LabelBound).Select(f => Binding(register, f))
            .GroupBy(b => (b.Device, b.Campaign, b.Station)).Select(g => g.First())];

    /// <summary>Whether a code was ever bound, also where that was annulled: it is never given again.</summary>
    public static bool WasUsed(Register register, LabelCode code) => register.Facts(Subject.Label(code.Text)).Count > 0;

    /// <summary>Codes that are on two things at once.</summary>
    public static IEnumerable<RegisterFinding> Findings(Register register)
    {
        foreach (var code in register.LabelCodes)
        {
            if (LabelCode.TryRead(code, out var read, out _) && Of(register, read) is { Count: > 1 } several)
                yield return new(
                    "label-twice",
                    [Subject.Label(code)],
                    $"The label {read.Spoken} is on {string.Join(" and on ", several.Select(b => Name(register, b)))}"
                        + ": annul the binding that is wrong.",
                    [.. several.Select(b => b.Fact.ToString())]);
        }
    }

    /// <summary>Name of what a label is on, for people.</summary>
    public static string Name(Register register, LabelBinding binding) =>
        binding.Device is { } device
            ? register.Device(device)?.Name ?? device
            : $"station {binding.Station} of {register.Campaign(binding.Campaign!)?.Name ?? binding.Campaign}";

    /// <summary>Puts a label on a device.</summary>
    public static Result<IReadOnlyList<Fact>> Bind(Register register, Saying saying, string code, string device)
    {
        if (register.Device(device) is not { } state) return DeviceDecisions.Missing(device);
        return Wrong(register, code, b => b.Device == state.Id, out var read)
            ?? saying.Of(register, new LabelBound(read.Text, null), Subject.Label(read.Text), Subject.Device(state.Id));
    }

    /// <summary>Puts a label at a station.</summary>
    public static Result<IReadOnlyList<Fact>> BindStation(Register register, Saying saying, string code, string campaign, string station)
    {
        if (register.Campaign(campaign) is not { } state) return new Rejection(RejectionSort.NotFound, $"There is no campaign {campaign}.");
        if (!state.Stations.ContainsKey(station)) return new Rejection(RejectionSort.NotFound, $"{state.Name} has no station {station}.");
        return Wrong(register, code, b => b.Campaign == campaign && b.Station == station, out var read)
            ?? saying.Of(register, new LabelBound(read.Text, station), Subject.Label(read.Text), Subject.Campaign(campaign));
    }

    private static Result<IReadOnlyList<Fact>>? Wrong(Register register, string code, Func<LabelBinding, bool> isSame, out LabelCode read)
    {
        if (!LabelCode.TryRead(code, out read, out var why)) return Saying.Invalid(why!);
        var here = Of(register, read);
        if (here.Any(isSame)) return new Rejection(RejectionSort.Conflict, $"The label {read.Spoken} is on it already.");
        if (here.Count > 0)
        {
            return new Rejection(
                RejectionSort.Conflict, $"The label {read.Spoken} is on {Name(register, here[0])}: a code is never given twice.");
        }
        return WasUsed(register, read)
            ? (Result<IReadOnlyList<Fact>>)new Rejection(
                RejectionSort.Conflict, $"The label {read.Spoken} was used before and taken off: a code is never given twice.")
            : null;
    }

    private static LabelBinding Binding(Register register, Fact fact)
    {
        var device = fact.Subjects.FirstOrDefault(Subject.IsDevice);
        var campaign = fact.Subjects.FirstOrDefault(Subject.IsCampaign);
        return new(
            fact.Id,
            device is null ? null : register.EntriesOf(Subject.Id(device))[0],
            device is null && campaign is not null ? Subject.Id(campaign) : null,
            ((LabelBound)fact.Body).Station);
    }
}
