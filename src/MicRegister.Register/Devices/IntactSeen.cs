namespace MicRegister.Register.Devices;

/// <summary>What an inspection says of a device's state, so that its maker's data may be used.</summary>
public static class IntactSeen
{
    extension(DeviceInspected seen)
    {
        /// <summary>
        /// Whether a person found the device fit, undamaged and uncontaminated, and keeps its maker's data: named in words, attached, or both.
        /// </summary>
        public bool IsIntactWithMakersData =>
            seen is { Passed: true, Undamaged: true, Uncontaminated: true }
            && (!string.IsNullOrWhiteSpace(seen.MakersData) || seen.Attachment is not null);

        /// <summary>What an inspection found amiss, in words; null where nothing.</summary>
        public string? Amiss =>
            seen.Undamaged == false ? "damaged"
            : seen.Uncontaminated == false ? "contaminated"
            : seen.Passed ? null
            : "failed";

        /// <summary>What it says of damage, contamination and maker's data, as a part of a sentence; empty where nothing.</summary>
        public string StateInWords => string.Join(", ", new[]
        {
            seen.Undamaged is { } whole ? (whole ? "undamaged" : "damaged") : null,
            seen.Uncontaminated is { } clean ? (clean ? "uncontaminated" : "contaminated") : null,
            seen.MakersData is { Length: > 0 } data ? "maker's data: " + data : seen.Attachment is null ? null : "maker's data attached",
        }.OfType<string>());
    }
}
