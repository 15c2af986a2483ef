using System.Net;
using MicRegister.Server.Accounts;

namespace MicRegister.Server.Setup;

/// <summary>How a server stands on a machine or a network.</summary>
public sealed record ServerOptions
{
    /// <summary>Port; 0 takes any.</summary>
    public int Port { get; init; } = 5480;

    /// <summary>Address to listen on; beyond the loopback only with a sign-in.</summary>
    public IPAddress Address { get; init; } = IPAddress.Loopback;

    /// <summary>Who is let in.</summary>
    public Access Access { get; init; } = Access.OpenHere;

    /// <summary>
    /// Folder for the keys that sessions are protected with; null keeps them in memory, so that a restart ends all sessions.
    /// </summary>
    public string? KeyFolder { get; init; }

    /// <summary>PEM file of the server's certificate; null serves plain HTTP.</summary>
    public string? Certificate { get; init; }

    /// <summary>PEM file of its private key.</summary>
    public string? CertificateKey { get; init; }

    /// <summary>PEM file of the authority that phones are asked to trust.</summary>
    public string? Authority { get; init; }

    /// <summary>Port of a second, plain door beside HTTPS; null opens none.</summary>
    public int? PlainPort { get; init; }

    /// <summary>Whether the plain door serves the field pages and how to trust, instead of leading all to HTTPS.</summary>
    public bool PlainServesField { get; init; }

    /// <summary>An outside provider of sign-ins (OpenID Connect); null uses passwords alone.</summary>
    public OutsideProvider? Outside { get; init; }

    /// <summary>Opens a look at the invented fleet on this machine and says where; null where none is offered.</summary>
    public Func<CancellationToken, Task<Uri>>? Glance { get; init; }

    public bool IsSecure => Certificate is not null;
}
