import sharp from 'sharp'
const [,,out,...files]=process.argv
const W=560
const tiles=await Promise.all(files.map(async(f,i)=>({input:await sharp(f).rotate().resize(W,W,{fit:'contain',background:'#333'}).png().toBuffer(),left:(i%3)*W,top:Math.floor(i/3)*W})))
await sharp({create:{width:3*W,height:Math.ceil(files.length/3)*W,channels:3,background:'#000'}}).composite(tiles).png().toFile(out)
