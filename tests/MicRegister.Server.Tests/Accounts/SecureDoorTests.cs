using System.Diagnostics;
using System.Net;
using System.Net.Security;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using MicRegister.Server.Accounts;
using MicRegister.Server.Setup;
using Microsoft.AspNetCore.Connections;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>HTTPS with the certificates that the script in deploy makes.</summary>
public sealed class SecureDoorTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_server_with_a_certificate_of_the_house_is_trusted_and_its_plain_door_leads_to_it()
    {
        using var folder = new TemporaryFolder();
        Assert.Equal(0, (await Run("bash", Path.Combine(AppContext.BaseDirectory, "deploy", "make-certificates.sh"), folder.Path, "localhost", "127.0.0.1")).Exit);
        var (certificate, key, root) = (folder.At("server.crt"), folder.At("server.key"), folder.At("authority.crt"));
        await using var server = await OnFreePorts(o => o with { Certificate = certificate, CertificateKey = key, Authority = root });
        var port = server.Addresses.Select(a => new Uri(a)).Single(a => a.Scheme == "https").Port;
        var plain = server.Addresses.Select(a => new Uri(a)).Single(a => a.Scheme == "http").Port;
        using var authority = X509CertificateLoader.LoadCertificateFromFile(folder.At("authority.crt"));
        using var client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, SslOptions = new SslClientAuthenticationOptions { CertificateChainPolicy = new() { TrustMode = X509ChainTrustMode.CustomRootTrust, CustomTrustStore = { authority }, RevocationMode = X509RevocationMode.NoCheck } } });

        using var page = await client.GetAsync($"https://localhost:{port}/sign-in", Cancel);
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
        Assert.StartsWith("max-age=", page.Headers.GetValues("Strict-Transport-Security").Single(), StringComparison.Ordinal);
        Assert.All(page.Headers.GetValues("Set-Cookie"), c => Assert.Contains("secure", c, StringComparison.OrdinalIgnoreCase));
        // Without that authority nobody trusts it.
        using var stranger = new HttpClient();
        await Assert.ThrowsAsync<HttpRequestException>(() => stranger.GetAsync($"https://localhost:{port}/sign-in", Cancel));

        using var lead = await client.GetAsync($"http://localhost:{plain}/fleet?q=1", Cancel);
        Assert.Equal($"https://localhost:{port}/fleet?q=1", lead.Headers.Location!.ToString());
        using var posted = await client.PostAsync($"http://localhost:{plain}/api/devices", new StringContent("{}"), Cancel);
        Assert.Equal((HttpStatusCode.BadRequest, "application/problem+json"), (posted.StatusCode, posted.Content.Headers.ContentType!.MediaType));
        Assert.Contains("How a phone trusts this server", await client.GetStringAsync($"http://localhost:{plain}/trust", Cancel), StringComparison.Ordinal);
        Assert.Equal(await File.ReadAllBytesAsync(folder.At("authority.crt"), Cancel), await client.GetByteArrayAsync($"http://localhost:{plain}/trust/authority.crt", Cancel));
    }

    [Fact]
    public async Task The_authority_can_vouch_for_its_own_names_only()
    {
        using var folder = new TemporaryFolder();
        await Run("bash", Path.Combine(AppContext.BaseDirectory, "deploy", "make-certificates.sh"), folder.Path, "register.lan", "192.168.1.20");
        await File.WriteAllTextAsync(folder.At("bank.ext"), "subjectAltName=DNS:bank.example", Cancel);
        await Run("openssl", "req", "-new", "-newkey", "rsa:2048", "-nodes", "-keyout", folder.At("bank.key"), "-subj", "/CN=bank.example", "-out", folder.At("bank.csr"));
        await Run("openssl", "x509", "-req", "-in", folder.At("bank.csr"), "-CA", folder.At("authority.crt"), "-CAkey", folder.At("authority.key"), "-days", "9", "-out", folder.At("bank.crt"), "-extfile", folder.At("bank.ext"));

        var own = await Run("openssl", "verify", "-CAfile", folder.At("authority.crt"), folder.At("server.crt"));
        var bank = await Run("openssl", "verify", "-CAfile", folder.At("authority.crt"), folder.At("bank.crt"));

        Assert.Equal(0, own.Exit);
        Assert.NotEqual(0, bank.Exit);
        Assert.Contains("permitted subtree violation", bank.Text, StringComparison.Ordinal);
        // Also where only addresses are named.
        await Run("bash", Path.Combine(AppContext.BaseDirectory, "deploy", "make-certificates.sh"), folder.At("only"), "192.168.1.20");
        await Run("openssl", "x509", "-req", "-in", folder.At("bank.csr"), "-CA", folder.At("only/authority.crt"), "-CAkey", folder.At("only/authority.key"), "-days", "9", "-out", folder.At("bank2.crt"), "-extfile", folder.At("bank.ext"));
        Assert.Contains("permitted subtree violation", (await Run("openssl", "verify", "-CAfile", folder.At("only/authority.crt"), folder.At("bank2.crt"))).Text, StringComparison.Ordinal);
        Assert.Equal(2, (await Run("bash", Path.Combine(AppContext.BaseDirectory, "deploy", "make-certificates.sh"), folder.Path, "no good name")).Exit);
    }

    [Fact]
    public void Without_a_sign_in_no_server_listens_beyond_this_machine()
    {
        using var folder = new TemporaryFolder();
        var refusal = Assert.Throws<ArgumentException>(() => RegisterServer.Build(null!, TimeProvider.System, null, new ServerOptions { Address = IPAddress.Any, Access = Access.OpenHere }));
        Assert.Contains("loopback address only", refusal.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("the first start prints a link", "--listen", "0.0.0.0", "--without-sign-in")]
    [InlineData("--listen nowhere", "--listen", "nowhere")]
    [InlineData("are given together", "--port", "0", "--certificate", "SELF")]
    [InlineData("stands beside HTTPS", "--port", "0", "--plain-port", "8080")]
    [InlineData("there is no such file", "--key", "nothing.pem")]
    public async Task Serve_says_what_is_allowed(string says, params string[] args)
    {
        using var folder = new TemporaryFolder();
        var self = folder.At("self");
        await File.WriteAllTextAsync(self, "x", Cancel);

        var (exit, _, error) = await CommandLine.Run(["serve", "--data", folder.At("data"), .. args.Select(a => a == "SELF" ? self : a)]);

        Assert.Equal(2, exit);
        Assert.Contains(says, error, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task An_owner_who_is_locked_out_gets_in_on_the_machine_itself()
    {
        using var folder = new TemporaryFolder();
        var before = Console.In;
        try
        {
            Assert.Equal(0, (await CommandLine.Run("account", "make", "Olive", "--duties", "own", "--data", folder.Path)).Exit);
            Console.SetIn(new StringReader("ten hungry lapwings\n"));
            Assert.Equal(0, (await CommandLine.Run("account", "password", "olive", "--data", folder.Path)).Exit);
        }
        finally
        {
            Console.SetIn(before);
        }
        Assert.Contains("Olive: own", (await CommandLine.Run("account", "list", "--data", folder.Path)).Out, StringComparison.Ordinal);
        Assert.Contains("last owner", (await CommandLine.Run("account", "close", "Olive", "--data", folder.Path)).Error, StringComparison.Ordinal);
        Assert.Contains("allowed are look, field", (await CommandLine.Run("account", "duties", "Olive", "--duties", "king", "--data", folder.Path)).Error, StringComparison.Ordinal);
        using var book = AccountBook.Open(new MicRegister.Storage.LiteDb.DiskFiles(folder.Path), TimeProvider.System);
        Assert.NotNull(book.Verify("Olive", "ten hungry lapwings"));
        // While a program holds the accounts, no other changes them.
        Assert.Contains("holds accounts.journal", (await CommandLine.Run("account", "list", "--data", folder.Path)).Error, StringComparison.Ordinal);
    }

    private static async Task<(int Exit, string Text)> Run(string program, params string[] args)
    {
        var info = new ProcessStartInfo(program) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var arg in args) info.ArgumentList.Add(arg);
        using var process = Process.Start(info)!;
        var errors = process.StandardError.ReadToEndAsync(Cancel);
        var text = await process.StandardOutput.ReadToEndAsync(Cancel);
        await process.WaitForExitAsync(Cancel);
        return (process.ExitCode, text + await errors);
    }

    // Between a port's being found free and its being taken, another program may take it: then two others are tried.
    private static async Task<ServerUnderTest> OnFreePorts(Func<ServerOptions, ServerOptions> more)
    {
        for (var left = 5; ; left--)
        {
            var (port, plain) = FreePorts();
            try
            {
                return await ServerUnderTest.OpenWithPeople(more: o => more(o) with { Port = port, PlainPort = plain });
            }
            catch (IOException e) when (left > 0 && e.InnerException is AddressInUseException)
            {
                // Tried anew.
            }
        }
    }

    private static (int Port, int Plain) FreePorts()
    {
        using TcpListener one = new(IPAddress.Loopback, 0), other = new(IPAddress.Loopback, 0);
        one.Start();
        other.Start();
        return (((IPEndPoint)one.LocalEndpoint).Port, ((IPEndPoint)other.LocalEndpoint).Port);
    }
}
