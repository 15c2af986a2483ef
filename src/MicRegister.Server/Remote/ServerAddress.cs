using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Remote;

/// <summary>A running server that a command speaks to, and as whom.</summary>
/// <param name="Address">Where it listens.</param>
/// <param name="Token">Script token of the person who speaks; null where the server asks for no sign-in.</param>
/// <param name="Person">Name of the person who speaks where the server asks for no sign-in.</param>
/// <param name="Authority">The authority that the server's certificate is from; null takes those that this machine trusts.</param>
internal sealed record ServerAddress(Uri Address, string? Token, string Person, X509Certificate2? Authority)
{
    /// <summary>Environment variable that holds a token; on the command line others on this machine could read it.</summary>
    public const string TokenVariable = "MICREGISTER_TOKEN";

    private const int MostLetters = 200;

    /// <summary>Whether this machine itself is spoken to.</summary>
    public bool IsHere => IsLoopback(Address);

    /// <summary>The address as people write it.</summary>
    public string InWords => Address.GetLeftPart(UriPartial.Authority);

    /// <summary>Reads what was said of a server.</summary>
    /// <param name="address">Its address.</param>
    /// <param name="tokenFile">File with the token; null takes the environment variable, where it is set.</param>
    /// <param name="allowPlain">Whether plain HTTP may leave this machine.</param>
    /// <param name="authority">PEM file of the authority that its certificate is from; null where this machine trusts it.</param>
    /// <param name="person">Name of the person who speaks where there is no sign-in.</param>
    /// <exception cref="BadUseException">Something of it cannot be; the message names it.</exception>
    public static ServerAddress Read(string address, string? tokenFile, bool allowPlain, string? authority, string person)
    {
        if (!Uri.TryCreate(address, UriKind.Absolute, out var uri) || uri.Scheme is not ("http" or "https")
            || uri.PathAndQuery != "/" || uri.UserInfo.Length > 0 || uri.Fragment.Length > 0)
        {
            throw new BadUseException($"--server {address}: allowed is an address such as https://register.lan:5443.");
        }
        if (uri.Scheme == "http" && !IsLoopback(uri) && !allowPlain)
        {
            throw new BadUseException(
                $"--server {address}: by plain HTTP everybody on the way could read the token and the files, and change them. "
                + "Give the https address, or --allow-plain on a network where that does not matter.");
        }
        return new(uri, ReadToken(tokenFile), person, authority is null ? null : Certificate(authority));
    }

    private static bool IsLoopback(Uri uri) =>
        uri.DnsSafeHost == "localhost" || (IPAddress.TryParse(uri.DnsSafeHost, out var ip) && IPAddress.IsLoopback(ip));

    private static string? ReadToken(string? file)
    {
        if (file is not null && !File.Exists(file)) throw new BadUseException($"--token-file: there is no file {file}.");
        var where = file is null ? TokenVariable : "--token-file " + file;
        var token = (file is null ? Environment.GetEnvironmentVariable(TokenVariable) : File.ReadAllText(file))?.Trim();
        if (file is null && string.IsNullOrEmpty(token)) return null;
        // The text itself is not shown: it may be a secret all the same.
        return token is { Length: > 0 and <= MostLetters } && token.All(c => c is > ' ' and <= '~') ? token
            : throw new BadUseException($"{where} holds no token: allowed is one line such as mr_…, as My account shows it.");
    }

    private static X509Certificate2 Certificate(string file)
    {
        if (!File.Exists(file)) throw new BadUseException($"--authority: there is no file {file}.");
        try
        {
            return X509CertificateLoader.LoadCertificateFromFile(file);
        }
        catch (CryptographicException)
        {
            throw new BadUseException($"--authority {file} is no certificate: allowed is a PEM file.");
        }
    }
}
