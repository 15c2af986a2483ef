using Microsoft.AspNetCore.DataProtection;

namespace MicRegister.Server.Accounts;

/// <summary>
/// A browser from which an account came in before carries a protected mark, so that what others guess does not hold it up.
/// </summary>
internal static class KnownDevice
{
    private const string Cookie = "register-known";
    private const int MostCharacters = 4000;

    /// <summary>Mark of this browser for an account; null where it has none.</summary>
    public static string? Of(HttpContext context, string name)
    {
        if (context.Request.Cookies[Cookie] is not { Length: > 0 and < MostCharacters } text) return null;
        try
        {
            var parts = Protector(context).Unprotect(text).Split('\n');
            return parts.Length == 2 && parts[1] == Normal(name) ? parts[0] : null;
        }
        catch (System.Security.Cryptography.CryptographicException)
        {
            return null; // of another server, or made up
        }
    }

    /// <summary>Leaves the mark.</summary>
    public static void Keep(HttpContext context, string name, string? device)
    {
        var mark = device ?? Convert.ToHexStringLower(System.Security.Cryptography.RandomNumberGenerator.GetBytes(12));
        context.Response.Cookies.Append(Cookie, Protector(context).Protect($"{mark}\n{Normal(name)}"), new()
        {
            HttpOnly = true,
            SameSite = SameSiteMode.Strict,
            Secure = context.Request.IsHttps,
            MaxAge = TimeSpan.FromDays(400),
            Path = "/account",
            IsEssential = true,
        });
    }

    private static IDataProtector Protector(HttpContext context) =>
        context.RequestServices.GetRequiredService<IDataProtectionProvider>().CreateProtector("known device");

    private static string Normal(string name) => Register.Devices.DeviceIdentity.Normal(name);
}
