namespace MicRegister.Register.Facts;

/// <summary>The register got its name and its home. Of several, the last stated counts. Subject: the register.</summary>
/// <param name="RegisterId">A ULID's text that tells this register from others.</param>
/// <param name="Name">Name for headings and prints.</param>
/// <param name="HomeZone">IANA name of the zone in which bare dates begin.</param>
/// <param name="Offsets">The zone's offsets from UTC, oldest first, so that no machine's zone data is asked.</param>
public sealed record RegisterFounded(string RegisterId, string Name, string HomeZone, IReadOnlyList<ZoneOffset> Offsets) : FactBody;

/// <summary>A client's clock was found wrong. Subject: the register.</summary>
/// <param name="Client">The client.</param>
/// <param name="FromCounter">First counter of that client that this offset applies to; the next notice takes over.</param>
/// <param name="OffsetMs">Milliseconds to add to the client's times.</param>
public sealed record ClientClockNoticed(string Client, long FromCounter, long OffsetMs) : FactBody;
