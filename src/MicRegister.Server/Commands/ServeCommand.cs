using System.CommandLine;
using System.Net;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Server.Accounts;
using MicRegister.Server.Setup;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Commands;

/// <summary>Serves a register on this machine, or on a network.</summary>
internal static class ServeCommand
{
    /// <summary>Folder beside the accounts with the keys that sessions are protected with.</summary>
    private const string Keys = "session-keys";
    private static readonly TimeSpan LinkLasts = TimeSpan.FromHours(24);

    public static Command Make()
    {
        var (data, today) = (CommonOptions.Data(), CommonOptions.Today());
        var port = new Option<int>("--port") { Description = "Port; 0 takes any.", DefaultValueFactory = _ => 5480 };
        var listen = new Option<string>("--listen")
        {
            Description = "Address to listen on, for example 0.0.0.0 for all of a network (otherwise this machine only).",
            DefaultValueFactory = _ => "127.0.0.1",
        };
        var open = new Option<bool>("--without-sign-in")
        { Description = "Let whoever is on this machine do everything; only on this machine." };
        var certificate = new Option<string?>("--certificate") { Description = "PEM file of a certificate: serves HTTPS." };
        var key = new Option<string?>("--key") { Description = "PEM file of its private key." };
        var authority = new Option<string?>("--authority")
        { Description = "PEM file of the house's own authority, for the page that explains to phones how to trust it." };
        var plainPort = new Option<int?>("--plain-port") { Description = "Port of a second, plain door beside HTTPS that leads to it." };
        var plainField = new Option<bool>("--plain-field")
        { Description = "Serve the field pages at the plain door too: without camera and without working offline." };
        var outside = new Option<string?>("--outside-sign-in") { Description = "Address of an OpenID Connect provider." };
        var client = new Option<string>("--outside-client")
        { Description = "Id of this server at that provider.", DefaultValueFactory = _ => "register" };
        var secret = new Option<string?>("--outside-secret")
        { Description = "File that holds the secret of this server at that provider." };
        var command = new Command("serve", "Serve the register's pages and API, on this machine or on a network.")
        { data, port, listen, open, certificate, key, authority, plainPort, plainField, outside, client, secret, today };
        command.SetAction((parsed, cancel) => CommandExit.Run(async () =>
        {
            DateOnly? fixedDay = parsed.GetValue(today) is { } text ? CommonOptions.Day(text, TimeProvider.System) : null;
            var folder = CommonOptions.Folder(parsed.GetValue(data));
            var isOpen = parsed.GetValue(open);
            if (!IPAddress.TryParse(parsed.GetValue(listen), out var address))
                throw new BadUseException(
                    $"--listen {parsed.GetValue(listen)}: allowed is an address such as 127.0.0.1, 0.0.0.0 or ::.");
            if (isOpen && !IPAddress.IsLoopback(address))
                throw new BadUseException(
                    $"--listen {address} reaches beyond this machine: take --without-sign-in away. "
                    + "The first start prints a link that makes the first owner; owners then make accounts under People.");
            await using var glance = new DemoGlance();
            var options = new ServerOptions
            {
                Glance = glance.Open,
                Port = parsed.GetValue(port),
                Address = address,
                KeyFolder = isOpen ? null : Path.Combine(folder, Keys),
                Certificate = Existing(parsed.GetValue(certificate), "--certificate"),
                CertificateKey = Existing(parsed.GetValue(key), "--key"),
                Authority = Existing(parsed.GetValue(authority), "--authority"),
                PlainPort = parsed.GetValue(plainPort),
                PlainServesField = parsed.GetValue(plainField),
                Outside = parsed.GetValue(outside) is { } provider
                    ? new(
                        provider, parsed.GetValue(client)!,
                        Existing(parsed.GetValue(secret), "--outside-secret") is { } file
                            ? (await File.ReadAllTextAsync(file, cancel)).Trim()
                            : null)
                    : null,
            };
            await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder), TimeProvider.System));
            using var book = isOpen ? null : AccountBook.Open(new DiskFiles(folder), TimeProvider.System);
            await Serve(live, fixedDay, book is null ? options : options with { Access = new(book) }, [], cancel);
            live.Log.Settle(live.Now, always: true);
            return CommandExit.Good;
        }));
        return command;
    }

    // So many are looked through in a moment.
    private const int Many = 1000;

    /// <summary>Serves until it is stopped.</summary>
    /// <param name="live">The register.</param>
    /// <param name="today">Day as of which is judged; null takes the clock's.</param>
    /// <param name="options">Where it listens and who is let in.</param>
    /// <param name="said">Lines to print once it listens.</param>
    /// <param name="cancel">Stops it.</param>
    public static async Task Serve(
        LiveRegister live, DateOnly? today, ServerOptions options, IReadOnlyList<string> said, CancellationToken cancel)
    {
        if (options.Port is < 0 or > 65535) throw new BadUseException($"--port {options.Port}: allowed is a number from 0 to 65535.");
        if (options.Certificate is not null != options.CertificateKey is not null)
            throw new BadUseException("--certificate and --key are given together.");
        if (options.PlainPort is not null && !options.IsSecure)
            throw new BadUseException("--plain-port stands beside HTTPS: give --certificate and --key too.");
        await using var app = RegisterServer.Build(live, TimeProvider.System, today, options);
        try
        {
            await app.StartAsync(cancel);
        }
        catch (IOException e) when (e.InnerException is Microsoft.AspNetCore.Connections.AddressInUseException)
        {
            throw new BadUseException($"Port {options.Port} is taken; choose another with --port, or 0 for any.");
        }
        catch (System.Security.Cryptography.CryptographicException e)
        {
            throw new BadUseException($"--certificate or --key cannot be used: {e.Message}");
        }
        var address = app.Urls.First();
        ((JournalStore)live.Log).Announce(address);
        var isHere = IPAddress.IsLoopback(options.Address);
        var look = FirstLook.Take(app.Services, options.Access.IsOpen && !options.IsSecure ? address : null);
        if (live.Now.DeviceIds.Count() is var devices and > Many) Console.WriteLine($"Looking through {devices} devices …");
        try
        {
            await look.WaitAsync(FirstLook.Longest, TimeProvider.System, cancel);
        }
        catch (TimeoutException)
        {
            // It goes on beside what people ask for.
        }
        Console.WriteLine(
            $"The register's pages: {address} ({(isHere ? "on this machine only" : "on this network")}"
            + $"{(options.Access.IsOpen ? ", without sign-in" : "")}; Ctrl+C stops)");
        if (!isHere && !options.IsSecure)
            Console.WriteLine(
                "This door is plain HTTP: passwords can be read on the way. "
                + "Give --certificate and --key; deploy/make-certificates.sh makes them.");
        if (options.Access.Book is { HasOwner: false } book)
        {
            var here = address.Replace("0.0.0.0", "localhost", StringComparison.Ordinal)
                .Replace("[::]", "localhost", StringComparison.Ordinal);
            Console.WriteLine(
                "This register has no owner yet. Whoever opens this link first becomes it (good once, for a day): "
                + $"{here}/first-owner?key={book.MakeLink(LinkPurpose.FirstOwner, null, LinkLasts)}");
        }
        foreach (var line in said) Console.WriteLine(line);
        await app.WaitForShutdownAsync(cancel);
    }

    private static string? Existing(string? path, string option) =>
        path is null || File.Exists(path) ? path : throw new BadUseException($"{option} {path}: there is no such file.");
}
