using MicRegister.Register.Readiness;
using Microsoft.AspNetCore.WebUtilities;

namespace MicRegister.Server.Pages.Shell;

/// <summary>A part of a device's page, with an address of its own.</summary>
public enum DevicePart
{
    /// <summary>Its results: forecast, certificates, checks, curves.</summary>
    Results,

    /// <summary>What it is: kind, maker, model, details, class.</summary>
    WhatItIs,

    /// <summary>Where it was and what was done with it.</summary>
    WhereItWas,

    /// <summary>What it depends on, and what depends on it.</summary>
    DependsOn,

    /// <summary>What was said of it.</summary>
    Journal,

    /// <summary>All of them one beneath the other, as they are printed.</summary>
    Whole,
}

/// <summary>What can be entered about a device, each in a dialog of its own.</summary>
public enum DeviceAct
{
    /// <summary>A certificate with its results.</summary>
    Certificate,

    /// <summary>What an inspection found.</summary>
    Inspection,

    /// <summary>A repair, damage, a note.</summary>
    Work,

    /// <summary>State of use and place.</summary>
    State,

    /// <summary>A detail that is missing or wrong.</summary>
    Detail,

    /// <summary>That another entry is the same device.</summary>
    Join,

    /// <summary>What a calibrator's level becomes on microphones of a model.</summary>
    Coupling,
}

/// <summary>Where a device stands: its page, a part of it, a dialog on it. All who lead to a device ask here.</summary>
internal static class DeviceAddress
{
    /// <summary>Name of the list of certificates on the page.</summary>
    public const string CertificatesAnchor = "certificates";

    private const string Asked = "enter";

    // Words of addresses that were given out before there were parts.
    private const string FormerInspection = "#inspect";

    /// <summary>The parts in their order, with the word of the address and the one that people read.</summary>
    public static IReadOnlyList<(DevicePart Part, string Word, string Label)> Parts { get; } =
    [
        (DevicePart.Results, "results", "Results"), (DevicePart.WhatItIs, "what-it-is", "What it is"),
        (DevicePart.WhereItWas, "where-it-was", "Where it was"), (DevicePart.DependsOn, "depends-on", "Depends on"),
        (DevicePart.Journal, "journal", "Journal"), (DevicePart.Whole, "whole", "All of it"),
    ];

    /// <summary>Address of a device.</summary>
    /// <param name="id">Its id.</param>
    /// <param name="part">The part of its page; its results stand at the plain address.</param>
    public static string Of(string id, DevicePart part = DevicePart.Results) =>
        "devices/" + Uri.EscapeDataString(id) + (part == DevicePart.Results ? "" : "/" + Parts.First(p => p.Part == part).Word);

    /// <summary>Address at which a dialog about a device stands open.</summary>
    public static string Entering(string id, DeviceAct entry) => $"{Of(id, PartOf(entry))}?{Asked}={Word(entry)}";

    /// <summary>Address of its certificates.</summary>
    public static string Certificates(string id) => $"{Of(id)}#{CertificatesAnchor}";

    /// <summary>Where a device's finding is cleared on its own page.</summary>
    /// <param name="id">Id of the device.</param>
    /// <param name="clearing">What clears it.</param>
    /// <param name="rule">Key of the rule that found it: some want a detail, the others a certificate.</param>
    public static string Clearing(string id, Clearing clearing, string rule) => clearing switch
    {
        Register.Readiness.Clearing.Inspect => Entering(id, DeviceAct.Inspection),
        Register.Readiness.Clearing.Enter when OfDetails.Contains(rule) => Entering(id, DeviceAct.Detail),
        Register.Readiness.Clearing.Enter => Certificates(id),
        Register.Readiness.Clearing.Decide when OfResults.Contains(rule) => Certificates(id),
        _ => Of(id),
    };

    /// <summary>The part that an address names; its results where it names none, null where there is no such part.</summary>
    public static DevicePart? PartOf(string? word) => string.IsNullOrEmpty(word) ? DevicePart.Results
        : Parts.Where(p => string.Equals(p.Word, word, StringComparison.OrdinalIgnoreCase)).Select(p => (DevicePart?)p.Part)
            .FirstOrDefault();

    /// <summary>The dialog that stands open at an address; null where none does.</summary>
    public static DeviceAct? EntryAt(Uri address)
    {
        if (address.Fragment == FormerInspection) return DeviceAct.Inspection;
        string? word = QueryHelpers.ParseQuery(address.Query).TryGetValue(Asked, out var asked) ? asked : "";
        return Enum.GetValues<DeviceAct>().Where(e => Word(e) == word).Select(e => (DeviceAct?)e).FirstOrDefault();
    }

    // What readiness finds lacking in the details of a device rather than in a certificate of it.
    private static readonly HashSet<string> OfDetails = new(StringComparer.Ordinal)
    {
        "calibrator-class", "instrument-class", "response-type", "frequency-range", "plate-geometry", "altitude", "check-air",
    };

    // What somebody has to say of a certificate: whether it counts, what its alarm was, which one is in force.
    private static readonly HashSet<string> OfResults = new(StringComparer.Ordinal)
    {
        "step", "forecast", "calibrator-step", "one-day-twice", "change-in-bands", "response-limits", "response-by-angle",
    };

    private static string Word(DeviceAct entry) => entry.ToString().ToLowerInvariant();

    // Where the page says afterwards what was entered.
    private static DevicePart PartOf(DeviceAct entry) => entry switch
    {
        DeviceAct.Inspection or DeviceAct.Work or DeviceAct.State => DevicePart.WhereItWas,
        DeviceAct.Detail or DeviceAct.Join => DevicePart.WhatItIs,
        _ => DevicePart.Results,
    };
}
